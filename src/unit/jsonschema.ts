/** JSON Schemas of what goes in (actions, one a line to `feed`) and what is kept (journal events), for editors and other programs. */
import * as z from 'zod';
import { benchActionSchema } from './actions.js';
import { eventSchema } from './events.js';

/** JSON Schema (2020-12) of one action. */
export const actionJsonSchema = (): object => ({
  title: 'pinchrod action 1',
  ...z.toJSONSchema(benchActionSchema, { io: 'input' }),
});

/** JSON Schema (2020-12) of one line of a journal. */
export const eventJsonSchema = (): object => ({
  title: 'pinchrod journal event 1',
  ...z.toJSONSchema(eventSchema),
});
