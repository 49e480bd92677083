/** Messages that a small case cannot give, why, and the test that gives them. */
export const ELSEWHERE: Readonly<Record<string, { readonly why: string; readonly test: string }>> = {
  'archive.damaged': {
    why: 'the file must be damaged',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'archive.not-removed': {
    why: 'a damaged or very large archive',
    test: 'tests/commands/handedin.test.ts',
  },
  'archive.too-large': {
    why: 'a job of more than a gigabyte',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'archive.wanting': {
    why: 'a damaged or very large archive',
    test: 'tests/commands/handedin.test.ts',
  },
  'daybook.same-limits': {
    why: 'somebody must stand for the limits first',
    test: 'tests/commands/questions.test.ts',
  },
  'verify.credential': {
    why: 'it takes a unit that is released and signed',
    test: 'tests/record/credential.test.ts',
  },
  'init.name': { why: 'it is asked at a terminal', test: 'tests/commands/init.test.ts' },
  'bench.no-terminal': {
    why: 'the verb shows the board where there is no terminal',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'bench.not-frozen': {
    why: 'lines must be hashed anew',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'bench.read-only': {
    why: 'the bench says who has the unit instead',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'bench.let-go': { why: 'the program must have a fault', test: 'tests/tui/faults.test.ts' },
  'bench.look-only': { why: 'the program must have a fault', test: 'tests/tui/faults.test.ts' },
  'bench.reread': { why: 'the program must have a fault', test: 'tests/tui/faults.test.ts' },
  'bench.unexpected': {
    why: 'the program must have a fault',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'build.lot-which': { why: 'it needs lots of other units', test: 'tests/unit/refusals.test.ts' },
  'build.piece-elsewhere': { why: 'it needs pieces of other units', test: 'tests/unit/refusals.test.ts' },
  'build.bad-action': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.evidence-missing': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.hold-skipped': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/annexa.test.ts',
  },
  'build.lot-snagged': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.no-setup': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.not-opened': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.setup-blocked': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.unknown-instrument': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.unknown-person': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/unit/refusals.test.ts',
  },
  'build.unsigned': {
    why: 'the key of a bench must be made and spoilt',
    test: 'tests/tui/unsigned.test.ts',
  },
  'demo.stuck': {
    why: 'a clock far ahead',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'disk.does-not-append': {
    why: 'the disk must fail',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'disk.failed': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'disk.fault': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'disk.full': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'disk.gone': {
    why: 'the disk must fail',
    test: 'tests/store/workshop.test.ts',
  },
  'disk.no-right': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'disk.read-only': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'disk.short': {
    why: 'the disk must fail',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'disk.too-many-open': {
    why: 'the disk must fail',
    test: 'tests/store/faults.test.ts',
  },
  'evidence.changed': {
    why: 'a file must change between two steps',
    test: 'tests/store/workshop.test.ts',
  },
  'evidence.missing': {
    why: 'a file must change between two steps',
    test: 'tests/store/workshop.test.ts',
  },
  'init.no-source': {
    why: 'the program must lie in a folder without its workshop',
    test: 'tests/store/workshop.test.ts',
  },
  'journal.cannot-hold': {
    why: 'another process must write, or lines must be hashed anew',
    test: 'tests/store/faults.test.ts',
  },
  'journal.replaced': {
    why: 'another process must put a file in its place',
    test: 'tests/store/replaced.test.ts',
  },
  'journal.changed-beneath': {
    why: 'another process must write',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'journal.let-go': {
    why: 'another process must take the unit over',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'journal.name': {
    why: 'another process must write, or lines must be hashed anew',
    test: 'tests/training/chainlog.test.ts',
  },
  'journal.newer': {
    why: 'lines must be hashed anew',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'journal.torn': {
    why: 'another process must write, or lines must be hashed anew',
    test: 'tests/store/damage.test.ts',
  },
  'journal.unknown-event': {
    why: 'lines must be hashed anew',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'lock.held': {
    why: 'a second process must have the unit',
    test: 'tests/store/lock.test.ts',
  },
  'main.resource': {
    why: 'it is said by the process itself, not by a verb',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'main.unexpected': {
    why: 'it is said by the process itself, not by a verb',
    test: 'tests/errors/hardtogive.test.ts',
  },
  'main.usage': {
    why: 'it is said by the process itself, not by a verb',
    test: 'tests/commands/verbs.test.ts',
  },
  'measure.misread-impossible': {
    why: 'the bench asks about the single lengths first',
    test: 'tests/measure/misread.test.ts',
  },
  'procedure.limit-unsourced': {
    why: 'a limits file with a limit without a source is not read at all: measure.limit-no-source',
    test: 'tests/procedure/lint.test.ts',
  },
  'source.changed': {
    why: 'the file name is a hash of the content',
    test: 'tests/store/workshop.test.ts',
  },
  'source.missing': {
    why: 'the file name is a hash of the content',
    test: 'tests/store/workshop.test.ts',
  },
  'verify.bad-signature': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.broken-chain': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.document-differs': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.document-seal': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.document-told': {
    why: 'a document of an earlier version is needed, and facts that were changed since',
    test: 'tests/commands/earlier.test.ts',
  },
  'verify.document-zone': {
    why: 'a document with a clock of its own must be made',
    test: 'tests/commands/wallclock.test.ts',
  },
  'verify.setup-gone': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.name-missing': {
    why: 'the file name is a hash of the content',
    test: 'tests/store/verify.test.ts',
  },
  'verify.name-changed': {
    why: 'the file name is a hash of the content',
    test: 'tests/store/verify.test.ts',
  },
  'verify.name-erased': {
    why: 'the file name is a hash of the content',
    test: 'tests/store/verify.test.ts',
  },
  'verify.forged-chain': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.grown': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.job-seal': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.key-brought': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.key-missing': {
    why: 'a fingerprint differs with each key made',
    test: 'tests/commands/trust.test.ts',
  },
  'verify.newer-format': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.not-opened': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.not-signed': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.source-changed': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.unknown-event': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.unknown-key': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'verify.untrusted-key': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/commands/trust.test.ts',
  },
  'verify.unreadable': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
  'key.gone': {
    why: 'a key must be made and its private part lost',
    test: 'tests/store/register/register.test.ts',
  },
  'key.nobody-signs': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'key.not-introduced': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'key.unknown': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'key.withdrawn': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'key.register-gone': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'register.damaged': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'register.gone': {
    why: 'what this account knows is outside the workshop',
    test: 'tests/store/register/register.test.ts',
  },
  'register.locked': {
    why: 'another process must hold it',
    test: 'tests/store/register/register.test.ts',
  },
  'register.not-restored': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'register.nothing': {
    why: 'a PIN is typed after units were built',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-anew': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-born-again': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-cut': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-emptied': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-gone': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.journal-put-back': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.key-entry': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.key-not-introduced': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.key-withdrawn': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.no-register': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.document-archived': {
    why: 'a job must be archived first',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.key-begun-anew': {
    why: 'keys differ each time they are made',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.signature-missing': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.not-entered': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.register-anew': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.register-cut': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.register-gone': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.register-unsigned': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/register/register.test.ts',
  },
  'shop.service': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.setting': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.unreachable': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.login': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.no-database': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.no-shop': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.there-already': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.too-old': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.newer': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.older': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.certificate': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.no-right': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.refused': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.server-full': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.not-joined': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.joined-already': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.other-shop': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.bench-taken': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.bench-name': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.journal-differs': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.line-broken': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.content-changed': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.lines-lost': { why: 'it takes a server', test: 'tests/server/copy.test.ts' },
  'shop.not-empty': { why: 'it takes a server', test: 'tests/server/copy.test.ts' },
  'shop.no-job': { why: 'it takes a server', test: 'tests/server/copy.test.ts' },
  'shop.journal-damaged': { why: 'it takes a server', test: 'tests/server/exchange.test.ts' },
  'shop.copied': { why: 'it takes a server', test: 'tests/server/exchange.test.ts' },
  'shop.branched': { why: 'it takes a server', test: 'tests/server/bench.test.ts' },
  'shop.leased': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.not-held': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.no-unit': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.setback': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.files-changed': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'shop.edition-passed': { why: 'it takes a server', test: 'tests/server/refused.test.ts' },
  'verify.branched': { why: 'it takes a server', test: 'tests/server/exchange.test.ts' },
  'build.unseen': { why: 'it takes a server', test: 'tests/unit/refusals.test.ts' },
  'verify.restore-accepted': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
  'verify.seal-gone': {
    why: 'a register is hashed anew each time',
    test: 'tests/store/register/register.test.ts',
  },
};
