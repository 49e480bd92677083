/** Texts of `pinchrod VERB --help`. Separate from the verbs, so that help loads none of their code. */
export const HELP = {
  bench: `pinchrod [bench] [UNIT]

Opens the bench: choose or scan a unit, then do and answer what it asks. With a unit, that unit is opened at once.

Example: pinchrod bench P02-1`,

  board: `pinchrod board [JOB] [--by unit|stage] [--hand-over [--since TIME]] [--json]

Lists units and where they stand, told apart by a sign and a word. Units of which nothing is logged are "not started". A unit
whose job, profile set, procedure or limits are no longer the workshop's files says so; "pinchrod revise" takes it over.

--by stage   a line a step instead, with the units in which it is open or held, and those that begin there: all frames to be
             squared, for example
--hand-over  a page for the next shift: half done, held, curing, about to run out, snags, parked, and the notes since TIME
             (ISO 8601, by the workshop's clock unless it names an offset; twelve hours where it is not given)

Example: pinchrod board pier-house --json`,

  setout: `pinchrod setout JOB [UNIT] [--json | --cut | --marks] [--csv] [--why NAME] [--svg FILE]

JOB is a job of the workshop, or a job file. UNIT is a unit (P05-1) or a mark (P05: every unit of that mark).

  --json         everything, for scripts
  --cut          the cut list, by profile, longest first; with --csv or --json in that form
  --marks        every mark of every part; with --csv or --json in that form
  --why NAME     the sum that gave a number, as a tree; "--why ?" lists the names
  --all          with --why: the whole tree, however long
  --svg FILE     the elevation of one unit, seen from outside
  --spot SPOT    with --svg: what to show on it (keeps, drains, addon-fixings, ...)
  --item ITEM    with --spot: of which light or divider (L2, D1)
  --triangle AT  with --svg: hinge or handle, where opening triangles have their apex
  --ascii        no line-drawing characters

Exit code 1: a unit is refused. Its problems are printed with number, limit and source.

Example: pinchrod setout pier-house P05-1 --why glass.L2.width`,

  lint: `pinchrod lint [FILE ...] [--json] | pinchrod lint --coverage JOB | pinchrod lint --words LANGUAGE

Checks profile sets, jobs, limits, instruments, people and procedures: their form, every formula's names and types, and that
they fit together for every unit of every job. With files, only what is wrong in those is said. --coverage prints which steps
and checks each unit of a job gets; --words how many of the program's own texts are translated, reviewed, and changed since.

Example: pinchrod lint procedures/casement.yaml
Exit codes: 0 nothing is wrong, 1 a unit is refused by its order check or a file is unwise, 2 a file cannot be used.`,

  record: `pinchrod record [UNIT | JOB] [--format text|html|json|csv|pdf] [--out FILE] [--annex] [--initials]
       [--declaration | --credential] [--since DATE] [--until DATE] [--job JOB] [--snagged] [--paper a4|letter]
       [--language en|de] [--schema]

The quality record of a unit or of a whole job: on page one whether it is right, by whom it was released and what was not right
at once; then the exceptions with their reasons, the measured values, drawings, what passed, materials and people. --annex adds
every answer with its line of the journal; JSON has it always. Without a name, every unit that was worked on from --since to
--until (dates, both included). --snagged keeps only units with a snag. --initials puts initials in place of people's names.
--language tells it in another language, the steps too where the procedure is translated; a CSV stays as it is.
--declaration gives the sheet of particulars under EN 14351-1 instead (text, HTML or PDF). --credential
signs the record of a released unit with this bench's key as a W3C Verifiable Credential: who has the key's did:key can check it
without this program and without these files (logs/README.md). --schema prints the JSON format's schema. Without
--format, by the ending of --out; else text.

Examples:
  pinchrod record P02-1
  pinchrod record pier-house --format pdf --out pier-house.pdf --initials
  pinchrod record --since 2026-03-01 --until 2026-03-31 --snagged --format csv --out march.csv
Exit codes: 0 written (finished or not), 1 a journal or what a unit was built from does not hold, 2 used wrongly, 3 the disk failed.`,

  label: `pinchrod label UNIT|JOB [--parts] [--stock NAME] [--format svg|png|pdf] [--out FILE] [--skip N] [--dpi N]
       [--language en|de] [--json]

Labels with the unit's code as QR code, Code 128 and letters (with a check character), its handing, sketch, mass and lift
caution. With --parts, one label for each cut piece. A scan of either opens the unit at the bench. --skip leaves places at the
start of a sheet free. PNG is one file a label, for printers of --dpi dots an inch (203, 300, 600). With --json only what each
label says. Stocks:
  roll-100x60  roll, 100 x 60 mm
  a4-8         A4 sheet of 8, 99.1 x 67.7 mm
  a4-14        A4 sheet of 14, 99.1 x 38.1 mm
  a4-21        A4 sheet of 21, 63.5 x 38.1 mm

Examples:
  pinchrod label P02-1 --out P02-1.svg
  pinchrod label pier-house --stock a4-8 --out labels.pdf
  pinchrod label P02-1 --parts --stock a4-21 --skip 3 --out parts.pdf
Exit codes: 0 done, 1 a journal does not hold, 2 used wrongly, 3 the disk failed.`,

  verify: `pinchrod verify [JOB | UNIT | JOB UNIT | FILE] [--trust FINGERPRINT] [--shop] [--json]

Reads the journals, what the units were built from, the evidence and the seals, and says what does not hold, each with file
and line. Nothing is changed. Without a name, everything under logs/. FILE is a document that was handed in, of a unit, a job or
a period, or a sheet of particulars, in any format (text as .txt): it is made anew from the journals and must say the same. Or
it is an archive of a job (ZIP). The ids are explained in logs/README.md, with how to check a journal without this program.

--trust  once for each key of the workshop: its fingerprint as pinchrod key show prints it, from paper. Then no other key
         counts. Without it every key under shared/keys counts, and whoever can write there can add one.
--shop   first holds the shop's server against this folder, line by line and file by file; nothing is handed over

Examples:
  pinchrod verify
  pinchrod verify pier-house P02-1 --json
  pinchrod verify pier-house.zip
Exit codes: 0 all holds, 1 something does not, 2 used wrongly or nothing of that name, 3 a file could not be read.`,

  key: `pinchrod key new [--anew] | show | replace | accept FINGERPRINT [--bench NAME] | withdraw KEY --why lost|exposed
       (FINGERPRINT: 64 hex digits; KEY: the 16 that they begin with)

A key counts only if the register introduces it. The workshop's first key introduces itself: write its fingerprint on paper.
Every other is introduced by one that counts.

new       makes an Ed25519 key for this bench. From the moment it counts every unit that is finished here is signed. The
          private part stands in keys/, readable by you alone: it is never shown, archived or sent anywhere. Keep a copy
          where only you reach it. The public part stands in shared/keys/ and may be given to anybody. --anew: no private
          key that counts is left anywhere; the register of keys begins again with this one, and readers must be told.
show      this bench's key, the others that count, and those that ask to.
replace   makes a new key for this bench, which the old one introduces; the old one is withdrawn.
accept    at a bench whose key counts: lets the key of another bench count. Type the fingerprint that its screen shows; with
          --bench where the key lies in shared/keys already.
withdraw  what that key signed so far still counts, and nothing that it signs from now on.

A reader who does not trust this folder has the fingerprint from you on paper: pinchrod verify --trust FINGERPRINT.

Example: pinchrod key new
Exit codes: 0 done, 2 used wrongly, or the key is there already or cannot be used, 3 the disk failed.`,

  shop: `pinchrod shop init|join|status|publish|take|resume|leave|copy|remove [WORD] [--by PERSON] [--reason TEXT] [--bench NAME]
       [--service NAME] [--moved] [--drop] [--json]

Several benches that share one PostgreSQL server (13 or newer). Every bench works on its own disk and hands over what was
given there; while the line is down it works on. Where the server is, PGHOST, PGPORT, PGDATABASE, PGUSER and PGPASSWORD say,
or PGSERVICE (or --service) with a service file. On another machine than this one the line is encrypted and the server's
certificate checked, unless PGSSLMODE says otherwise.

  init     makes the shop in the database, publishes this workshop's files and takes part; again: brings it up to date
  join     takes part from this folder, which may be empty, under --bench or the workshop's name for the bench; what lets a
           bench in is the server's own password. --moved: the folder is the bench's own, and was moved or put back
  status   how the line, the server and this folder stand
  publish  the workshop's files as they are here, for every bench, with --by and --reason; whoever publishes types their PIN,
           where they have one. --drop takes what is published instead, and keeps yours under shop/dropped
  take     takes UNIT from the bench that has it, with a reason; what that bench gives meanwhile is kept as a branch
  resume   after the server was put back: goes on without the benches that have not reported
  leave    hands over, and makes the folder a workshop by itself
  remove   the owner takes JOB off the server for good; that it was there, and how far it had come, stays
  copy     writes the whole shop into the empty folder DIR, as a workshop by itself; reading it suffices

Examples:
  PGHOST=shopserver PGDATABASE=shop pinchrod shop init --by ot
  pinchrod shop take P02-1 --by ot --reason "bench-2 is out of order"
Exit codes: 0 done, 1 something does not hold, 2 used wrongly or refused, 3 the server or the disk failed.`,

  register: `pinchrod register [--json] | pinchrod register accept --by PERSON --reason TEXT

How far each bench's register has come, and the key by which all others count. A bench enters the last line of every journal
that it opens, holds, leaves, closes or seals, and each minute of work; pinchrod verify holds the journals against that, and
names what was cut, emptied, put back, removed or written anew.

accept   after a copy of the workshop was put back: somebody who may release (and types their PIN, where they have one) takes
         what is there for what counts. It says first what that is. The entry stays, and verify names it from then on.

Example: pinchrod register accept --by ot --reason "disk failed, copy of Monday night"
Exit codes: 0 done, 1 nothing to accept, or it may not be accepted, 2 used wrongly, 3 the disk failed.`,

  seal: `pinchrod seal JOB

Seals a job of which every unit is finished or scrapped: one hash over the units' journals in order, signed with the key of
this bench where it has one, in logs/JOB/job.seal.json. A closed unit that is not signed yet (it was closed before there
was a key) is signed first. pinchrod verify checks the seal from then on; even lines cut off a journal's end show.

Example: pinchrod seal pier-house
Exit codes: 0 sealed, 1 units are open or a journal does not hold, 2 used wrongly, 3 the disk failed.`,

  archive: `pinchrod archive JOB [--out FILE] [--remove]

Packs a job into one ZIP file: journals, seals, evidence, what the units were built from, public keys, the manual of the
format, the record of each unit and of the job as text, HTML, JSON, CSV and PDF, and MANIFEST, a list of hashes (unpack, then:
sha256sum -c MANIFEST). The file is read back and verified. Without --out it is JOB.zip in the folder where you are. Nothing
is removed from the workshop unless --remove is given; then only a job of which every unit is closed, after the archive has
been verified.

Example: pinchrod archive pier-house --out pier-house-2026.zip
Exit codes: 0 archived and verified, 1 something does not hold, 2 used wrongly, 3 the disk failed.`,

  feed: `pinchrod feed UNIT [--person ID]

Reads one action a line as JSON on standard input and answers one line of JSON for each. An answer has "ok"; with it "events"
(what was written, by number and kind), "verdict" (pass, fail or not-proven, of an answer) and "next" (the check asked now,
and of a set the reading), or "refused" (id, text, todo), or "ask" (a likely
misread: send the same action again with "confirmed": true to stand by it).

The last reading of a set settles it. An instrument stays in hand until another is named; one that does not measure what is
asked is refused. A second name confirms itself once a stage ("confirm": their "pin", or their "code" where they have none).

Set-ups are proven and ended here too ("first-off", "end-setup", "snag-setup"), and a unit that a bench left locked is taken
over ("take-over"), as at the bench. Evidence is named by its path, or "newest" for the newest file in the inbox folder.

Example:
  printf '%s\\n' '{"do":"person","person":"jb"}' '{"do":"answer","check":"order.papers/revision","value":"yes"}' | pinchrod feed P02-1

The actions' JSON Schema is shared/schemas/action.json.
Exit codes: 0 every line was taken, 1 a line was refused or asked about, 2 used wrongly or a line that is no action, 3 the disk failed.`,

  setup: `pinchrod setup [list | first-off SETUP | end SETUP REASON] [--json]
       first-off: --person ID [--instrument ID ...] --value CHECK=VALUE ... [--confirmed] [--note TEXT] [--snag]
       end:       --person ID [--note TEXT]; REASON is shift-end, blade-changed, tool-changed, knock, moved, other

Without a word, or with "list", says how each set-up of shared/setups.yaml stands and what its first-off asks. A first-off is
all its checks at once; when one fails, the units made since the last good one are listed, and --snag raises a snag on each.

Example: pinchrod setup first-off drill --person jb --instrument C1 --value jig=yes --value bushes=yes --value hole=100
Exit codes: 0 done, 1 the first-off did not pass, was refused or asked about, 2 used wrongly, 3 the disk failed.`,

  revise: `pinchrod revise UNIT [--person ID --reason TEXT --yes] [--json]

Shows what the workshop's files of now would re-open of a unit that was begun, and why. With --yes these files are frozen for it:
steps that were done and are judged otherwise now (a figure, a limit, the kind of instrument asked for, the rule of judging, the
order of work) are to be done again, with all that rests on them; the rest stays done. Where the order is another, its check and
what is asked once for it are to be answered and released again. Other words re-open nothing. It takes the right to release, and
the PIN of who has one, as a line of input without a terminal.
"pinchrod board" says which units are built from other files than those of now.

Example: pinchrod revise P02-1 --person ot --reason "revision C: height 704" --yes
Exit codes: 0 shown or done, 1 refused, 2 used wrongly, 3 the disk failed.`,

  person: `pinchrod person pin ID [--by WHO] | pinchrod person erase ID --by WHO | pinchrod person move-pins

pin        sets a PIN, typed twice; who has one types it first, or WHO theirs. PINs are kept, hashed, in keys/pins.json
erase      erases the name and initials of somebody who has left from all that units keep: records show the id and "name
           erased" from then on. No journal is changed. First take the person out of shared/people.yaml
move-pins  moves PINs of an older workshop out of shared/people.yaml

WHO must be at level 5 (may assess), and types their PIN where they have one. Without a terminal, PINs are lines of input.

Example: pinchrod person erase tf --by ot
Exit codes: 0 done, 1 refused, 2 used wrongly, 3 the disk failed.`,

  daybook: `pinchrod daybook [received|sent|agreed|action|limits|chart|strike ...] --by PERSON [--on DATE] [--json]
  received --supplier NAME --note NUMBER --lot LOT [--lot ...] [--certificate TEXT]     goods came in
  sent UNIT|JOB ... --customer NAME --note NUMBER                                       units left
  agreed UNIT --snag NUMBER --customer NAME --how TEXT [--refused]                      the customer's word on a snag
  action --against CAUSE|CHECK --what TEXT            what is done so that it does not happen again
  limits --reason TEXT                                PERSON stands for shared/limits.yaml as it is, and says why
  chart CHECK --reason TEXT                           limits of a chart as its readings give them now, for what comes
  strike ENTRY --reason TEXT                          an entry was wrong

Without a word it shows the book. Entries are chained like a unit's journal and none is ever changed; registers tell them beside
what the units say (pinchrod ledger --help). Who may do the work alone writes received and sent, who may release the others,
with their PIN where they have one; without a terminal it is a line of input.

Example: pinchrod daybook received --supplier "Harbour Extrusions" --note 4711 --lot B-12 --certificate "3.1, 88213" --by mv
Exit codes: 0 shown or written, 1 refused, or the book does not hold, 2 used wrongly, 3 the disk failed.`,

  ledger: `pinchrod ledger REGISTER [--from DATE] [--to DATE] [--job JOB] [--initials] [--paper a4|letter]
       [--language en|de] [--format text|html|pdf|csv|json] [--out FILE] [--separator comma|semicolon|tab] [--decimal .|,] [--bom]

A register over all units, or those of one job, by day (both included). REGISTER is one of:
  nonconformities  what failed, was conceded, made again or taken back, with reason, cause, which one it repeats, and
                   whether the customer agreed
  actions          corrective actions, and how often it happened before and since
  instruments      each calibration under which one was used, from when to when, and every unit measured under it;
                   calibrations of today's list that nothing was measured under
  lots             each lot, where it was accepted, supplier and certificate, and the units that hold it
  deliveries       what came in and what left, by delivery note
  set-ups          each first-off with its readings, and the units that rest on it
  people           who did how much at which level, and on which units
  limits           what changed in shared/limits.yaml, who stands for it and why, and the units built on it
  complaints       what was written after a record was closed
  releases         each release with its record's number, type test, delivery note, and how long it must be kept
For a spreadsheet that wants them, --bom, --separator and --decimal change the CSV.

Example: pinchrod ledger nonconformities --from 2026-03-01 --to 2026-03-31 --out march.pdf
Exit codes: 0 written, 1 a journal does not hold, 2 used wrongly, 3 the disk failed.`,

  trace: `pinchrod trace [--lot L] [--instrument I] [--person P] [--set-up S] [--procedure-version V] [--json]

Lists every unit that it reached, with the steps. Where several are given, all must fit.

Example: pinchrod trace --lot S-2611
Exit codes: 0 something was found, 1 nothing was, 2 used wrongly or a journal is damaged.`,

  figures: `pinchrod figures [CHECK] [--job JOB] [--from DATE] [--to DATE] [--set SET] [--instrument ID] [--lot LOT] [--setup ID]
       [--chart KIND] [--rules R1,R2,R3,R4|all] [--first N] [--low N] [--high N] [--format text|html|pdf|csv|json] [--out FILE]
       [--paper a4|letter] [--language en|de] [--json]
       pinchrod figures --csv FILE --value COLUMN [--subgroup COLUMN] [--of COLUMN] [--low N] [--high N] [...]

What the readings of many units say together: a chart with its limits, the points that signal, and capability. Without CHECK it
lists what is measured, with its yields and what fails most. With --csv it reads a table from elsewhere: one line of names, then
one line a reading, in the order in which they were taken.

--subgroup  over units: day, job, unit, setup, instrument; of a table: the column that names the group
--chart     individuals (with moving ranges), mean with range or sd for groups; p, laney for shares: lines of 0 and 1 in
            --subgroup, or counts with --of, how many there were
--rules     R1 one beyond three standard deviations (always meant); R2 two of three beyond two, R3 four of five beyond one,
            R4 eight in a row, each on one side. Each adds false alarms: shared/figures.md
--first     the first N points give the limits, which judge the rest
--low, --high  the limits of a single reading, for capability

Example: pinchrod figures --csv readings.csv --value diagonal --low -2 --high 2
Exit codes: 0 shown, 2 used wrongly or a bad table, 3 the disk failed.`,

  study: `pinchrod study --csv FILE --part COLUMN --person COLUMN --value COLUMN [--format text|html|pdf|json] [--out FILE] [--json]
       pinchrod study plan --person ID --person ID ... [--parts N] [--trials N] --out FILE; pinchrod study take FILE --by ID
       pinchrod study --csv FILE --value COLUMN --reference NUMBER|COLUMN [...]
       pinchrod study --csv FILE --part COLUMN --person COLUMN --judgement COLUMN [--right COLUMN] [--paper a4|letter] [...]

How much of what is seen comes from measuring. Each of at least two people measures each of at least two parts at least twice:
repeatability and reproducibility by analysis of variance, and by ranges. With --reference the bias of an instrument against one
reference, or along several. With --judgement how far people agree on go and no-go beyond chance, and with --right how far
with what is right. --language en|de. plan draws the order by lot (10 parts, 3 trials if not told otherwise); take asks
for one person's readings, blind, and keeps each before it asks for the next; an empty line ends it for now.

Example: pinchrod study --csv gauge.csv --part part --person appraiser --value reading
Exit codes: 0 shown, 2 used wrongly or a bad table, 3 the disk failed.`,

  square: `pinchrod square [--top L] [--bottom L] [--left L] [--right L] --bl-tr L --br-tl L

What a frame's sides and diagonals say of its shape. Left and right as seen from outside; lengths in mm with point or
comma. Two diagonals are enough for their difference, two sizes more for the racking; all six check one another.
Give an option again for a repeat. Limits, instruments, decision rule and units are those of the workshop it runs in.

  --instrument ID     instrument of shared/instruments.yaml: its offset is added, its uncertainty used
  --nominal WxH       nominal size, for size errors
  --limits A,B        ids in shared/limits.yaml (without it: the frame's)
  --rule RULE         simple, guarded (w = U), or guarded:0.83 (w = 0.83 U), in place of the workshop's own
  --unit UNIT         mm, or inch (decimals and fractions: --top '39 3/8'), in place of the workshop's own
  --cured             the corners have set: nothing is to be forced
  --confirmed         the readings were taken again and stand
  --ascii             draw with plain characters
  --json              figures as JSON

Example:
  pinchrod square --top 1201 --bottom 1200 --left 1499.5 --right 1500.5 --bl-tr 1922 --br-tl 1919 --nominal 1200x1500

Exit codes: 0 it holds, 1 it does not or is not proven, 2 bad usage or bad input.`,

  train: `pinchrod train WHAT ...

Practice and sign-off, apart from the quality records: what is kept stands under practice/, in chained journals of its own.

  squaring [--level 1|2|3] [--size WxH]    a simulated frame with hidden faults, to be measured and put right
  setout UNIT LIGHT                        work one light by hand; the first wrong line is shown with its sum
  faults UNIT [--faults N]                 a finished virtual unit with faults, to be found by choosing checks
  memory UNIT --person ID [--minutes N]    questions from the steps, on a spaced schedule
  walk UNIT --person ID [--stage STAGE]    a practice run with why, watch and caution open, and questions before holds
  signoff observe PERSON STAGE --by ID --text NOTE [--unit UNIT] [--set SET]
  signoff give PERSON STAGE LEVEL --by ID --set SET [--text NOTE] [--waive REASON]
  signoff withdraw PERSON STAGE --by ID --text REASON [--set SET]
  page PERSON [--html]                     what somebody may do, on what evidence, and what is next
  verify                                   are the practice and sign-off journals whole

  --seed N        the same drill again
  --person ID     keep what is practised in this person's practice journal
  --set SET       the profile set it is about; give needs it where there is more than one, the others mean every one without
  --procedure P   for signoff and page, where there is more than one
  --json          one JSON object a line
  --ascii         draw with plain characters
  --plain         line by line, also in a terminal that could show a full screen

A drill reads one action a line from standard input; type help in it for usage. An assessor with a PIN types it on
the first line.

Example:
  printf '%s\\n' 'read bl-tr' 'read br-tl' 'flat' 'done' | pinchrod train squaring --seed 7 --level 1
Exit codes: 0 done or passed, 1 not passed, refused or not whole, 2 bad usage or bad input, 3 the disk failed.`,

  compare: `pinchrod compare OLD NEW [--json]

What changed between two versions of a procedure (stages, steps, checks, holds added, dropped, changed or moved) or of
the limits (added, dropped, moved, given another source). A version that a record froze is a file under logs/sources.

Example: pinchrod compare old/casement.yaml procedures/casement.yaml`,

  init: `pinchrod init DIR [--name NAME] [--place ADDRESS] [--person "ID NAME"]... [--instrument WORD]... [--language en|de] [--json]
       pinchrod init DIR --demonstration [--json]

Makes a workshop of your own in DIR. In a terminal it asks its name and place, who works there, what instruments lie in the drawer
and which language the bench speaks; each answer can be an option instead. The first person runs the workshop, and everybody sets
their own PIN. Profile sets, procedures, limits, set-ups and one small job come with it; the figures of the sets are invented.

--instrument     one of the list that is asked (tape, rule, calliper ...), or all; may be given more than once
--demonstration  the invented workshop with its people, instruments and jobs, as "pinchrod demo" opens it

Nothing that is there is overwritten.

Example: pinchrod init my-workshop --name "Quay Lane Windows" --person "jb Joan Bexley" --instrument all
Exit codes: 0 made, 2 used wrongly or the folder is in use, 3 the disk failed.`,

  new: `pinchrod new set|job|procedure|instrument NAME [--set SET] [--procedure PROCEDURE] [--json]
       pinchrod new set NAME [--face N] [--floor N] [--edge N] [--cover N] [--bead N] [--window WxH] [--json]

Writes a file to begin with, commented line by line, that works as it stands: put your own figures in place of the made-up ones.
For a set it asks, in a terminal, for five dimensions of a fixed light and a window to try, and begins a job and a procedure for
that window, too; each answer can be an option instead.
A job takes the set and the procedure named; else those that bear its name; else those of the workshop's first job. An
instrument is put at the end of shared/instruments.yaml. Nothing that is there is overwritten.

Example: pinchrod new set own --face 54 --floor 22 --edge 4 --cover 18 --bead 20 --window 900x1200`,

  demo: `pinchrod demo [--unattended [UNIT | JOB]]

Copies the demonstration workshop into a temporary folder and opens the bench there. With --unattended one unit (P02-1 if none
is named), or a job's units as a batch, is built from first check to closed record through the same keys, rules and journal as
at the bench; what is done is printed, the journal verified and the record written. The window and every reading are invented.

Example: pinchrod demo --unattended P03-1`,

  messages: `pinchrod messages [ID] [--json]

Every message by its id: what is wrong in general, and the way out.

Example: pinchrod messages file.schema`,
} as const;

/** What `--help` prints, of one language. */
export interface Helps {
  readonly help: Readonly<Record<string, string>>;
  /** What each verb is for, in a few words. */
  readonly says: Readonly<Record<string, string>>;
  readonly frame: Readonly<Record<'start' | 'more' | 'codes', string>>;
}

/** A line for each verb. */
const VERB_SAYS: Readonly<Record<string, string>> = {
  bench: 'open the bench (as does no verb at all)',
  board: 'units and where they stand',
  setout: 'every size and mark of a job, and why',
  lint: 'check the workshop files',
  record: 'quality record of a unit or job',
  label: 'labels for units and parts',
  verify: 'check that journals are whole and unaltered',
  key: "this bench's signing key",
  register: 'how far journals had come; accepting a restore',
  shop: 'several benches on one server: make, join, status, publish, take over',
  person: "people's PINs, and erasing a name",
  seal: 'sign and seal a finished job',
  archive: 'a job with all its records in one file',
  feed: 'act on a unit from a script: one JSON action a line',
  setup: 'set-ups: how they stand, first-offs, what ends them',
  revise: 'move a unit in progress to the current files',
  daybook: "deliveries, a customer's word, corrective actions, why a limit changed",
  ledger: 'registers over units: nonconformities, instruments, lots ...',
  trace: 'which units a lot, instrument or person reached',
  figures: 'charts, capability and yields over many units, or a table',
  study: 'what measuring adds to what is seen: instruments and judgements',
  square: 'squareness calculator for any frame',
  train: 'practice drills, memory, walk and sign-off',
  compare: 'what changed between two procedures or limits files',
  init: 'make a new workshop folder',
  new: 'begin a profile set, a job, a procedure or an instrument',
  demo: 'open the bench on a copy of the demonstration workshop',
  messages: 'the table of every message and what to do',
};

const FRAME: Helps['frame'] = {
  start: 'Without a verb the bench opens in this terminal.',
  more: 'pinchrod VERB --help tells more. Example: pinchrod setout pier-house P02-1',
  codes:
    'Exit codes: 0 done, 1 the thing checked does not hold, 2 bad usage or bad input, 3 the disk or another resource failed.',
};

export const ENGLISH_HELPS: Helps = { help: HELP, says: VERB_SAYS, frame: FRAME };
