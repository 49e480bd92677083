import { describe, expect, it } from 'vitest';
import { COMMANDS, commandOf, footerOf, keysMarkdown } from '../../src/tui/keys/table.js';
import { told } from '../../src/tui/words/told.js';

describe('the table of keys', () => {
  it('gives no key to two commands', () => {
    const keys = COMMANDS.flatMap((each) => each.keys);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('uses no Ctrl letter that a terminal takes for something else', () => {
    // H is backspace, I Tab, J and M Return; S and Q stop and start the line; C, D, V, backslash and Z are the driver's,
    // of which raw mode frees C, D and Z.
    const taken = ['h', 'i', 'j', 'm', 's', 'q', 'v'];
    for (const letter of taken) expect(commandOf(`ctrl+${letter}`)).toBeUndefined();
  });

  it('gives every function key a Ctrl letter beside it', () => {
    for (const { keys } of COMMANDS)
      if (keys.some((key) => /^f\d+$/.test(key)))
        expect(keys.some((key) => key.startsWith('ctrl+'))).toBe(true);
  });

  it('never lets a key that a scanner types be a command, but for Enter and Tab', () => {
    for (const { id, keys } of COMMANDS)
      for (const key of keys) if (key === 'enter' || key === 'tab' || key === 'char') expect(id).toBe('act');
  });

  it('lists each command in the Markdown for the README', () => {
    const text = keysMarkdown();
    for (const { id } of COMMANDS) expect(text).toContain(told({})(`key-${id}-help`));
    expect(footerOf('step').length).toBeGreaterThan(4);
  });
});
