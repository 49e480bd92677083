/** Every problem of a shop of several benches, and what to do about it. */
import { problemFactory } from '../base/problem.js';

export const SERVER_MESSAGES = {
  'shop.service': {
    what: 'the service that PGSERVICE names is in no service file, or the file cannot be used',
    todo: 'Write a section [NAME] with host=, port=, dbname=, user= into ~/.pg_service.conf, or set PGSERVICEFILE.',
  },
  'shop.setting': {
    what: 'a setting of the connection cannot be used',
    todo: 'Put the setting right: PGPORT is a number, PGSSLMODE one of disable, require, verify-ca, verify-full.',
  },
  'shop.unreachable': {
    what: 'the server does not answer',
    todo: 'See whether the server runs and the line is up; PGHOST and PGPORT say where it is. A bench works on meanwhile.',
  },
  'shop.login': {
    what: 'the server does not take this user or password',
    todo: 'Check PGUSER and the password (PGPASSWORD, PGPASSFILE or ~/.pgpass), then try again.',
  },
  'shop.no-database': {
    what: 'the server has no database of this name',
    todo: 'Check PGDATABASE, or have the database made: createdb NAME.',
  },
  'shop.no-shop': {
    what: 'the database holds no shop',
    todo: 'Check PGDATABASE. Its owner makes a shop there with: pinchrod shop init.',
  },
  'shop.there-already': {
    what: 'the database holds a shop already',
    todo: 'Nothing was changed. A bench takes part in it with: pinchrod shop join.',
  },
  'shop.too-old': {
    what: 'the server is older than PostgreSQL 13',
    todo: 'Have the server brought to PostgreSQL 13 or newer.',
  },
  'shop.newer': {
    what: 'the shop was brought to a form that a newer version of the program made',
    todo: 'Everything can be looked at. To hand over from here, install the newer version.',
  },
  'shop.older': {
    what: 'the shop has the form of an older version of the program',
    todo: 'Its owner brings it up to date with: pinchrod shop init.',
  },
  'shop.certificate': {
    what: "the server's certificate is not trusted, or it offers none",
    todo: "Set PGSSLROOTCERT to the file of the authority that signed it, and PGHOST to the name that it is for. The server's keeper turns ssl on.",
  },
  'shop.no-right': {
    what: 'this user of the server may not do this',
    todo: "Let the shop's owner do it, or have the user put into the role that may: pinchrod_bench, pinchrod_office or pinchrod_auditor.",
  },
  'shop.refused': {
    what: 'the server refuses what it was given',
    todo: 'Nothing is lost: it stands on this disk. Tell the keeper of the server what it says.',
  },
  'shop.server-full': {
    what: "the server's disk is full",
    todo: 'Work goes on here, and is handed over when there is room again. Tell the keeper of the server.',
  },
  'shop.not-joined': {
    what: 'this folder takes part in no shop',
    todo: 'Take part with: pinchrod shop join --by ID.',
  },
  'shop.joined-already': {
    what: 'this folder takes part in a shop already',
    todo: 'See pinchrod shop status; pinchrod shop leave ends it.',
  },
  'shop.other-shop': {
    what: 'the server holds another shop than the one this folder takes part in',
    todo: 'Nothing was handed over. Check PGHOST, PGDATABASE and PGSERVICE.',
  },
  'shop.bench-taken': {
    what: 'a bench of this name takes part in the shop from another folder',
    todo: 'Give this bench a name of its own: pinchrod shop join --bench NAME.',
  },
  'shop.bench-name': {
    what: 'this cannot be the name of a bench',
    todo: 'Use letters, digits, ".", "-" and "_", beginning with a letter or digit.',
  },
  'shop.journal-differs': {
    what: 'a journal of the workshop has other lines here than in the shop',
    todo: 'Nothing was handed over of it. Run pinchrod verify here and on another bench; the one that is whole counts.',
  },
  'shop.journal-damaged': {
    what: 'a journal of this folder is damaged in lines that the server does not have yet',
    todo: 'Run pinchrod verify, and restore the journal from a copy of this folder; the rest is handed over all the same.',
  },
  'shop.copied': {
    what: 'this folder is a copy of the one that takes part in the shop, or was moved',
    todo: 'A copy: take part under a name of its own, pinchrod shop join --bench NAME. A folder that was moved: pinchrod shop join --moved.',
  },
  'shop.branched': {
    what: 'another bench wrote the unit meanwhile, and what was given here is kept as a branch',
    todo: 'Nothing of it counts until the bench that has the unit decides its snag. pinchrod record JOB/UNIT~1 shows it.',
  },
  'shop.line-broken': {
    what: 'a line that the server holds does not fit the chain',
    todo: "It was not taken over. Run pinchrod verify --shop. Restore the server from a backup, or have its keeper remove the journal's rows: the benches hand it over again.",
  },
  'shop.content-changed': {
    what: 'a file that the server holds is not what its hash says',
    todo: 'It was not taken over. Run pinchrod verify --shop, and restore the server from a backup.',
  },
  'shop.lines-lost': {
    what: 'the server had lines that it has no more: somebody removed them, or it was put back to an earlier state',
    todo: 'The benches have them: whichever connects hands them over again. Ask the keeper of the server what was done.',
  },
  'shop.not-empty': {
    what: 'a copy of the shop goes into an empty folder alone',
    todo: 'Name a folder that is empty or not there.',
  },
  'shop.leased': {
    what: 'another bench has the unit',
    todo: 'Close it there (F2), or take it over: pinchrod shop take UNIT.',
  },
  'shop.not-held': {
    what: 'no other bench has the unit',
    todo: 'Open it; nothing needs to be taken over.',
  },
  'shop.no-job': {
    what: 'the server has no such job',
    todo: 'pinchrod board lists the jobs.',
  },
  'shop.no-unit': {
    what: 'there is no such unit',
    todo: 'pinchrod board lists the units; where an id stands in several jobs, name it as JOB/UNIT.',
  },
  'shop.setback': {
    what: 'the server was put back to an earlier state, and not all benches have reported since',
    todo: 'Let every bench connect once, or let the owner go on without them: pinchrod shop resume --reason TEXT.',
  },
  'shop.files-changed': {
    what: 'files of the workshop were changed here and not published',
    todo: "pinchrod shop publish makes them everybody's; pinchrod shop publish --drop takes what is published and keeps yours aside.",
  },
  'shop.edition-passed': {
    what: 'somebody else published meanwhile',
    todo: 'Take what is published, pinchrod shop publish --drop; it keeps your files under shop/dropped. Put your change in again and publish.',
  },
} as const;

export const shopProblem = problemFactory(SERVER_MESSAGES);
