/** Messages that a small case cannot give, why, and the test that gives them. Where none does yet, there is no test named. */
export const ELSEWHERE: Readonly<Record<string, { readonly why: string; readonly test?: string }>> = {
  'archive.damaged': {
    why: 'a damaged or very large archive',
  },
  'archive.not-removed': {
    why: 'a damaged or very large archive',
    test: 'tests/commands/handedin.test.ts',
  },
  'archive.too-large': {
    why: 'a damaged or very large archive',
  },
  'archive.wanting': {
    why: 'a damaged or very large archive',
    test: 'tests/commands/handedin.test.ts',
  },
  'bench.no-terminal': {
    why: 'it needs a terminal or two benches',
  },
  'bench.not-frozen': {
    why: 'it needs a terminal or two benches',
  },
  'bench.read-only': {
    why: 'it needs a terminal or two benches',
  },
  'bench.unexpected': {
    why: 'it needs a terminal or two benches',
  },
  'build.bad-action': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.evidence-missing': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.hold-skipped': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/annexa.test.ts',
  },
  'build.lot-snagged': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.no-setup': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.not-opened': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.setup-blocked': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.unknown-instrument': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'build.unknown-person': {
    why: 'feed checks an action, a person or an instrument before the decision does, or it needs a clock, lots or set-ups of other units',
    test: 'tests/build/refusals.test.ts',
  },
  'demo.stuck': {
    why: 'the demonstration must be made unfit to finish',
  },
  'disk.does-not-append': {
    why: 'the disk must fail',
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
  'journal.changed-beneath': {
    why: 'another process must write, or lines must be hashed anew',
  },
  'journal.let-go': {
    why: 'another process must write, or lines must be hashed anew',
  },
  'journal.name': {
    why: 'another process must write, or lines must be hashed anew',
    test: 'tests/train/chainlog.test.ts',
  },
  'journal.newer': {
    why: 'another process must write, or lines must be hashed anew',
  },
  'journal.torn': {
    why: 'another process must write, or lines must be hashed anew',
    test: 'tests/store/damage.test.ts',
  },
  'journal.unknown-event': {
    why: 'another process must write, or lines must be hashed anew',
  },
  'lock.held': {
    why: 'a second process must have the unit',
    test: 'tests/store/lock.test.ts',
  },
  'main.resource': {
    why: 'it is said by the process itself, not by a verb',
  },
  'main.unexpected': {
    why: 'it is said by the process itself, not by a verb',
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
  'record.label-room': {
    why: 'a label smaller than any stock',
  },
  'setout.clash-unproven': {
    why: 'a search bound or a sum that only a fault of the program breaks',
    test: 'tests/window/properties.test.ts',
  },
  'setout.sum': {
    why: 'a search bound or a sum that only a fault of the program breaks',
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
  'verify.unreadable': {
    why: 'lines must be hashed or signed anew',
    test: 'tests/store/verify.test.ts',
  },
};
