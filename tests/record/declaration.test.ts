import { describe, expect, it } from 'vitest';
import { declarationDocument, emptyFields } from '../../src/record/declaration.js';
import { htmlOf } from '../../src/record/html.js';
import { NO_PARTICULARS } from '../../src/record/particulars.js';
import { tellingOf } from '../../src/record/telling.js';
import { textOf } from '../../src/record/text.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT } from './states.js';

const view = recordView(FINISHED, SETOUT, CONTEXT);

describe('declaration sheet', () => {
  it('prints empty fields as empty, says so first, and invents nothing', () => {
    const document = declarationDocument(NO_PARTICULARS, view);
    expect(emptyFields(NO_PARTICULARS, tellingOf({}).say)).toHaveLength(20);
    const text = textOf(document);
    expect(text).toContain('20 particulars are empty');
    expect(text).toMatch(/^Maker *$/m);
    expect(text).toMatch(/^Watertightness *$/m);
    expect(text).not.toMatch(/NPD|npd|class \d/);
  });

  it('prints what the workshop filled in, also a characteristic of its own', () => {
    const filled = {
      ...NO_PARTICULARS,
      maker: 'Quay Lane Windows',
      classes: {
        'Air permeability': '4',
        'thermal transmittance': '1.4 W/(m²K)',
        'Burglar resistance': 'RC 2',
      },
    };
    const html = htmlOf(declarationDocument(filled, view));
    for (const text of ['Quay Lane Windows', '>4<', '1.4 W/(m²K)', 'Burglar resistance', 'RC 2'])
      expect(html).toContain(text);
    expect(emptyFields(filled, tellingOf({}).say)).not.toContain('Air permeability');
  });

  it('says that it does not decide conformity and that the law should be checked', () => {
    const text = textOf(declarationDocument(NO_PARTICULARS, view)).replace(/\s+/g, ' ');
    expect(text).toContain('it does not decide conformity');
    expect(text).toMatch(/check it before you rely on this sheet/);
  });
});
