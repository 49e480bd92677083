/** What may be wrong with a workshop file as a text, before any room looks at what it says. */
/** Levels of nesting that are taken. */
export const DEEPEST = 40;

export const YAML_MESSAGES = {
  'file.yaml': { what: 'the file is not valid YAML', todo: 'Mend the line named; indent with spaces only.' },
  'file.too-large': {
    what: 'a workshop file is larger than 2 MB',
    todo: 'Split the file, or remove what does not belong in it.',
  },
  'file.alias': {
    what: 'the file uses YAML aliases or anchors',
    todo: 'Write the value out in full; anchors and aliases are not taken.',
  },
  'file.deep': { what: 'the file is nested too deeply', todo: `Nest at most ${DEEPEST} levels.` },
  'file.schema': {
    what: 'a key is missing, unknown, or has a value of the wrong kind',
    todo: 'See the manual of this file format for the keys it takes.',
  },
  'file.control': {
    what: 'a text holds control characters',
    todo: 'Type the text again; only visible characters are taken.',
  },
} as const;
