/** Every problem of a shop of several benches, and what to do about it. */

import { problemFactory } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';

export const SERVER_MESSAGES = {
  'shop.service': word(
    'No service file names "{ $service }": { $files }.',
    'the service that PGSERVICE names is in no service file, or the file cannot be used',
    { service: 'shop', files: 'services.conf' },
  ),
  'shop.service.todo': wayOut(
    'Write a section [NAME] with host=, port=, dbname=, user= into ~/.pg_service.conf, or set PGSERVICEFILE.',
  ),
  'shop.setting': word('"{ $mode }" is no PGSSLMODE.', 'a setting of the connection cannot be used', {
    mode: 'require',
  }),
  'shop.setting.todo': wayOut(
    'Put the setting right: PGPORT is a number, PGSSLMODE one of disable, require, verify-ca, verify-full.',
  ),
  'shop.setting/cannot': word('{ $path } cannot be read ({ $key }).', 'as shop.setting', {
    path: 'logs/sources/9a1c',
    key: 'k3f9',
  }),
  'shop.setting/port': word('"{ $port }" is no port.', 'as shop.setting', { port: '99999' }),
  'shop.unreachable': word('The server has not answered yet.', 'the server does not answer'),
  'shop.unreachable.todo': wayOut(
    'See whether the server runs and the line is up; PGHOST and PGPORT say where it is. A bench works on meanwhile.',
  ),
  'shop.unreachable/server': word('The server closed the connection.', 'as shop.unreachable'),
  'shop.unreachable/connection': word('The connection was closed here.', 'as shop.unreachable'),
  'shop.unreachable/nothing': word(
    'Nothing answers at { $host }:{ $port } ({ $code }).',
    'as shop.unreachable',
    { host: 'shop.local', port: '5432', code: 'mv' },
  ),
  'shop.unreachable/fault': word('{ $fault }', 'as shop.unreachable', {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.login': word(
    'The server asks for a password, and none was given.',
    'the server does not take this user or password',
  ),
  'shop.login.todo': wayOut(
    'Check PGUSER and the password (PGPASSWORD, PGPASSFILE or ~/.pgpass), then try again.',
  ),
  'shop.login/fault': word('{ $fault }', 'as shop.login', { fault: 'Connection terminated unexpectedly.' }),
  'shop.no-database': word('{ $fault }', 'the server has no database of this name', {
    fault: 'Database "shop" does not exist.',
  }),
  'shop.no-database.todo': wayOut('Check PGDATABASE, or have the database made: createdb NAME.'),
  'shop.no-shop': word('The database holds no shop.', 'the database holds no shop'),
  'shop.no-shop.todo': wayOut('Check PGDATABASE. Its owner makes a shop there with: pinchrod shop init.'),
  'shop.no-shop/fault': word('{ $fault }', 'as shop.no-shop', {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.there-already': word('The database holds a shop.', 'the database holds a shop already'),
  'shop.there-already.todo': wayOut(
    'Nothing was changed. A bench takes part in it with: pinchrod shop join.',
  ),
  'shop.too-old': word('This server is PostgreSQL { $text }.', 'the server is older than PostgreSQL 13', {
    text: 'saw 45',
  }),
  'shop.too-old.todo': wayOut('Have the server brought to PostgreSQL 13 or newer.'),
  'shop.newer': word(
    'The shop has form { $form }; this program knows { $newest }.',
    'the shop was brought to a form that a newer version of the program made',
    { form: '12', newest: '11' },
  ),
  'shop.newer.todo': wayOut(
    'Everything can be looked at. To hand over from here, install the newer version.',
  ),
  'shop.older': word(
    'The shop has form { $form }; this program needs { $newest }.',
    'the shop has the form of an older version of the program',
    { form: '12', newest: '11' },
  ),
  'shop.older.todo': wayOut('Its owner brings it up to date with: pinchrod shop init.'),
  'shop.certificate': word('{ $fault }', "the server's certificate is not trusted, or it offers none", {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.certificate.todo': wayOut(
    "Set PGSSLROOTCERT to the file of the authority that signed it, and PGHOST to the name that it is for. The server's keeper turns ssl on.",
  ),
  'shop.no-right': word('{ $fault }', 'this user of the server may not do this', {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.no-right.todo': wayOut(
    "Let the shop's owner do it, or have the user put into the role that may: pinchrod_bench, pinchrod_office or pinchrod_auditor.",
  ),
  'shop.refused': word('The exchange ended: { $error }.', 'the server refuses what it was given', {
    error: 'the name is not known',
  }),
  'shop.refused.todo': wayOut(
    'Nothing is lost: it stands on this disk. Tell the keeper of the server what it says.',
  ),
  'shop.refused/fault': word('{ $fault }', 'as shop.refused', {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.server-full': word('{ $fault }', "the server's disk is full", {
    fault: 'Connection terminated unexpectedly.',
  }),
  'shop.server-full.todo': wayOut(
    'Work goes on here, and is handed over when there is room again. Tell the keeper of the server.',
  ),
  'shop.not-joined': word('This folder takes part in no shop.', 'this folder takes part in no shop'),
  'shop.not-joined.todo': wayOut('Take part with: pinchrod shop join --by ID.'),
  'shop.not-joined/shop': word(
    'The shop "{ $card }" knows nothing of this folder, or it left.',
    'as shop.not-joined',
    { card: 'Harbour Joinery' },
  ),
  'shop.joined-already': word(
    'This folder takes part in "{ $before }" as { $bench }.',
    'this folder takes part in a shop already',
    { before: 'machining', bench: 'bench-1' },
  ),
  'shop.joined-already.todo': wayOut('See pinchrod shop status; pinchrod shop leave ends it.'),
  'shop.other-shop': word(
    'The server holds the shop "{ $shop }".',
    'the server holds another shop than the one this folder takes part in',
    { shop: 'Harbour Joinery' },
  ),
  'shop.other-shop.todo': wayOut('Nothing was handed over. Check PGHOST, PGDATABASE and PGSERVICE.'),
  'shop.other-shop/server': word(
    'The server holds the shop "{ $shop }"; this folder takes part in "{ $card }".',
    'as shop.other-shop',
    { shop: 'Harbour Joinery', card: 'Harbour Joinery' },
  ),
  'shop.bench-taken': word(
    '"{ $bench }" takes part from another folder, or did.',
    'a bench of this name takes part in the shop from another folder',
    { bench: 'bench-1' },
  ),
  'shop.bench-taken.todo': wayOut('Give this bench a name of its own: pinchrod shop join --bench NAME.'),
  'shop.bench-taken/takes': word('"{ $bench }" takes part from another folder.', 'as shop.bench-taken', {
    bench: 'bench-1',
  }),
  'shop.bench-name': word(
    'The folder is no workshop yet, so nothing here names the bench.',
    'this cannot be the name of a bench',
  ),
  'shop.bench-name.todo': wayOut('Name it: --bench NAME.'),
  'shop.bench-name/cannot': word('"{ $bench }" cannot be the name of a bench.', 'as shop.bench-name', {
    bench: 'bench-1',
  }),
  'shop.bench-name/cannot.todo': wayOut(
    'Use letters, digits, ".", "-" and "_", beginning with a letter or digit.',
  ),
  'shop.journal-differs': word(
    'The journal is not the one that the shop has, and cannot be kept as a branch.',
    'a journal of the workshop has other lines here than in the shop',
  ),
  'shop.journal-differs.todo': wayOut(
    'Nothing was handed over of it. Run pinchrod verify here and on another bench; the one that is whole counts.',
  ),
  'shop.journal-differs/other': word(
    '{ $shown } has other lines here than in the shop.',
    'as shop.journal-differs',
    { shown: 'logs/sources/9a1c' },
  ),
  'shop.journal-differs/other-lines': word(
    '{ $file } has other lines here than in the shop.',
    'as shop.journal-differs',
    { file: 'shared/jobs/pier-house.yaml' },
  ),
  'shop.journal-differs/journal': word(
    'The journal is not the one that the shop has.',
    'as shop.journal-differs',
  ),
  'shop.journal-damaged': word(
    'The journal is damaged behind the lines that the server has.',
    'a journal of this folder is damaged in lines that the server does not have yet',
  ),
  'shop.journal-damaged.todo': wayOut(
    'Run pinchrod verify, and restore the journal from a copy of this folder; the rest is handed over all the same.',
  ),
  'shop.copied': word(
    'This folder is not where { $bench } lay when it took part.',
    'this folder is a copy of the one that takes part in the shop, or was moved',
    { bench: 'bench-1' },
  ),
  'shop.copied.todo': wayOut(
    'A copy: take part under a name of its own, pinchrod shop join --bench NAME. A folder that was moved: pinchrod shop join --moved.',
  ),
  'shop.branched': word(
    'Another bench wrote { $unit } meanwhile.',
    'another bench wrote the unit meanwhile, and what was given here is kept as a branch',
    { unit: 'P02-1' },
  ),
  'shop.branched.todo': wayOut(
    'Nothing of it counts until the bench that has the unit decides its snag. pinchrod record JOB/UNIT~1 shows it.',
  ),
  'shop.branched/another': word(
    'Another bench wrote the unit meanwhile: what was given here is { $units }.',
    'as shop.branched',
    { units: 'P02-1' },
  ),
  'shop.line-broken': word(
    'On the server the chain of { $shown } does not hold.',
    'a line that the server holds does not fit the chain',
    { shown: 'logs/sources/9a1c' },
  ),
  'shop.line-broken.todo': wayOut(
    "It was not taken over. Run pinchrod verify --shop. Restore the server from a backup, or have its keeper remove the journal's rows: the benches hand it over again.",
  ),
  'shop.line-broken/line': word(
    'A line of { $place } does not fit behind line { $cursor }.',
    'as shop.line-broken',
    { place: 'logs/pier-house/P02-1.jsonl', cursor: '40' },
  ),
  'shop.content-changed': word(
    '{ $path } is not what its hash says.',
    'a file that the server holds is not what its hash says',
    { path: 'logs/sources/9a1c' },
  ),
  'shop.content-changed.todo': wayOut(
    'It was not taken over. Run pinchrod verify --shop, and restore the server from a backup.',
  ),
  'shop.content-changed/file': word(
    'The file { $sha256 } is not what its hash says.',
    'as shop.content-changed',
    { sha256: '9a1c' },
  ),
  'shop.content-changed/path': word('"{ $path }" is no path of a kept file.', 'as shop.content-changed', {
    path: 'logs/sources/9a1c',
  }),
  'shop.content-changed/file-what': word(
    'The file { $path } is not what its name says.',
    'as shop.content-changed',
    { path: 'logs/sources/9a1c' },
  ),
  'shop.content-changed/path-workshop': word(
    '"{ $wrong }" is no path of the workshop\'s own files.',
    'as shop.content-changed',
    { wrong: 'a number is too large' },
  ),
  'shop.lines-lost': word(
    'The server had { $known } lines of { $journal } and has { $tips }.',
    'the server had lines that it has no more: somebody removed them, or it was put back to an earlier state',
    { known: 'saw, crimper', journal: 'pier-house/P02-1', tips: '40' },
  ),
  'shop.lines-lost.todo': wayOut(
    'The benches have them: whichever connects hands them over again. Ask the keeper of the server what was done.',
  ),
  'shop.not-empty': word('{ $root } is not empty.', 'a copy of the shop goes into an empty folder alone', {
    root: '/home/anna/work',
  }),
  'shop.not-empty.todo': wayOut('Name a folder that is empty or not there.'),
  'shop.leased': word('{ $bench } has { $unit }.', 'another bench has the unit', {
    bench: 'bench-2',
    unit: 'P02-1',
  }),
  'shop.leased.todo': wayOut('Close it there (F2), or take it over: pinchrod shop take UNIT.'),
  'shop.leased/other': word('Another bench has { $unit }.', 'as shop.leased', { unit: 'P02-1' }),
  'shop.leased/no-line': word('{ $bench } has { $unit }.', 'as shop.leased', {
    bench: 'bench-2',
    unit: 'P02-1',
  }),
  'shop.leased/no-line.todo': wayOut(
    'The line is down: what is shown is how it stood then. It can be had when the line is back.',
  ),
  'shop.leased/asked': word('{ $unit } went to another bench that asked for it.', 'as shop.leased', {
    unit: 'P02-1',
  }),
  'shop.not-held': word('No other bench has { $unit }.', 'no other bench has the unit', { unit: 'P02-1' }),
  'shop.not-held.todo': wayOut('Open it; nothing needs to be taken over.'),
  'shop.no-job': word('"{ $job }" is no name of a job.', 'the server has no such job', { job: 'pier-house' }),
  'shop.no-job.todo': wayOut('pinchrod board lists the jobs.'),
  'shop.no-job/server': word('The server has no journal of "{ $job }".', 'as shop.no-job', {
    job: 'pier-house',
  }),
  'shop.no-unit': word('There is no unit "{ $unit }".', 'there is no such unit', { unit: 'P02-1' }),
  'shop.no-unit.todo': wayOut(
    'pinchrod board lists the units; where an id stands in several jobs, name it as JOB/UNIT.',
  ),
  'shop.setback': word(
    'The server was put back to an earlier state; these benches have not reported since: { $benches }.',
    'the server was put back to an earlier state, and not all benches have reported since',
    { benches: 'bench-2, bench-3' },
  ),
  'shop.setback.todo': wayOut(
    'Let every bench connect once, or let the owner go on without them: pinchrod shop resume --reason TEXT.',
  ),
  'shop.files-changed': word(
    'Changed here and not published: { $files }.',
    'files of the workshop were changed here and not published',
    { files: 'shared/limits.yaml' },
  ),
  'shop.files-changed.todo': wayOut(
    "pinchrod shop publish makes them everybody's; pinchrod shop publish --drop takes what is published and keeps yours aside.",
  ),
  'shop.files-changed/more': word(
    'Changed here and not published: { $files } and { $more } more.',
    'as shop.files-changed',
    { files: 'shared/limits.yaml', more: 3 },
  ),
  'shop.edition-passed': word(
    'Edition { $n } was published meanwhile.',
    'somebody else published meanwhile',
    { n: '7' },
  ),
  'shop.edition-passed.todo': wayOut(
    'Take what is published, pinchrod shop publish --drop; it keeps your files under shop/dropped. Put your change in again and publish.',
  ),
} as const;

export const shopProblem = problemFactory(SERVER_MESSAGES);
