/** Messages raised by the bench itself. */
export const BENCH_MESSAGES = {
  'bench.no-terminal': {
    what: 'the bench was opened where there is no terminal',
    todo: 'Run pinchrod in a terminal; "pinchrod board" needs none.',
  },
  'bench.no-unit': {
    what: 'a unit was asked for that no job has',
    todo: '"pinchrod board" lists the units; several jobs may have one of that name: say JOB/UNIT.',
  },
  'bench.no-setup': {
    what: 'a set-up was named that shared/setups.yaml does not have',
    todo: '"pinchrod setup" lists the set-ups and how they stand.',
  },
  'bench.same-sources': {
    what: 'a revision was asked for, and the files are those that the unit is built from',
    todo: 'Change the job, profile set, procedure or limits first.',
  },
  'bench.not-begun': {
    what: 'a revision was requested for a unit with nothing logged yet',
    todo: 'Just begin it: it takes the files as they are.',
  },
  'bench.not-frozen': {
    what: "a unit's first event does not name what it is built from",
    todo: 'Run "pinchrod verify"; the unit may be looked at, not worked on.',
  },
  'bench.read-only': {
    what: 'an answer was given on a unit that somebody else is writing',
    todo: 'Close it there, then open it here again.',
  },
  'bench.inbox-empty': {
    what: 'the newest file of the inbox folder was to be evidence, and there is none',
    todo: 'Put the picture into the folder "inbox" of the workshop, or name a file.',
  },
  'bench.not-kept': {
    what: 'a unit was to be taken over that is open here for writing already',
    todo: 'Go on; there is nobody to take it from.',
  },
  'bench.nothing-in-doubt': {
    what: 'snags were to be raised for a set-up under which nothing is in doubt, or all have one',
    todo: '"pinchrod setup" says how the set-ups stand.',
  },
  'bench.reread': {
    what: 'a fault of the program while a unit was open',
    todo: 'The unit was read anew from its journal: look whether your last answer stands, then go on. Please report this line.',
  },
  'bench.look-only': {
    what: 'a second fault of the program on the same unit',
    todo: 'The unit may be looked at only. Leave the bench and start it again, or open another unit (F2). Please report this line.',
  },
  'bench.let-go': {
    what: 'a third fault of the program on the same unit',
    todo: 'The unit was closed. Nothing that was acknowledged is lost: leave the bench and start it again. Please report this line.',
  },
  'bench.unexpected': {
    what: 'the bench met something it did not expect',
    todo: 'Nothing that was acknowledged is lost; start it again and it stands at the same check.',
  },
  'evidence.no-picture': {
    what: 'a file given as evidence is no picture',
    todo: 'Give a photograph: JPEG, PNG, WebP or HEIC, as cameras and phones write them.',
  },
  'evidence.cut-off': {
    what: 'a picture given as evidence is not whole',
    todo: 'Wait until it is copied whole, or copy it again, then answer again.',
  },
  'evidence.too-small': {
    what: 'a picture given as evidence is too small to show anything',
    todo: 'Take it again, larger; leastPicture in shared/workshop.yaml says how large.',
  },
  'bench.no-measure': {
    what: 'no instrument in date measures a quantity that is asked',
    todo: 'Add one that measures it to shared/instruments.yaml.',
  },
  'bench.limit-unsupported': {
    what: 'no instrument of the workshop is good enough for a limit, by the rule of judging in force',
    todo: 'Get one whose uncertainty is smaller than the limit, or widen the limit; until then a pass says little.',
  },
  'bench.limit-unused': {
    what: 'a limit is used by no check',
    todo: 'Hold a check to it, or take it out: a limit that nothing is held to looks as if something were.',
  },
  'bench.mark-unmade': {
    what: 'a mark of the set-out is made by no step of the procedure',
    todo: 'Name it under "marks" of the step that makes it, such as frame/drain-inner.',
  },
  'bench.mark-twice': {
    what: 'two steps of the procedure make one mark',
    todo: 'Take it out of "marks" of one of them.',
  },
  'bench.code-shared': {
    what: 'two things have one code, so that a scan of it cannot be told apart',
    todo: 'Give one of them another code; until then each is taken only with its letter, such as I.B1 or U.B1.',
  },
} as const;
