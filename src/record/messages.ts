export const RECORD_MESSAGES = {
  'record.unknown-unit': {
    what: 'no unit and no job has the name given',
    todo: 'pinchrod board lists the units and jobs.',
  },
  'record.ambiguous': {
    what: 'several jobs have a unit of that name',
    todo: 'Name the job too: JOB/UNIT.',
  },
  'record.wrong-check': {
    what: 'the check character of a code does not fit the rest of it',
    todo: 'Scan the label again, or type the code again.',
  },
  'record.out-place': {
    what: "a document would be written over or among the workshop's own files",
    todo: 'Give --out a place outside procedures/, shared/ and logs/.',
  },
  'record.needs-out': {
    what: 'a document that is not text, or of several files, needs --out',
    todo: 'Give --out FILE.',
  },
  'record.option': {
    what: 'an option has a value that is not known',
    todo: 'Use one of the values named.',
  },
  'record.label-room': {
    what: 'something does not fit on the label of this size and was left out',
    todo: 'Use a larger label (--stock), if it is wanted.',
  },
  'record.out-folder': {
    what: 'a document is to be written into a folder that is not there',
    todo: 'Make the folder first, or mend the path.',
  },
} as const;
