/** The record as JSON, and the published schema of that format (JSON Schema 2020-12). */
import * as z from 'zod';
import { type CollectionView, collectionSchema, type RecordView, recordSchema } from './schema.js';

/** Two-space indented, so that a person can read it and a `diff` shows what changed. */
export const recordJson = (view: RecordView | CollectionView): string => `${JSON.stringify(view, null, 2)}\n`;

export const recordJsonSchema = () => z.toJSONSchema(recordSchema, { target: 'draft-2020-12' });
export const collectionJsonSchema = () => z.toJSONSchema(collectionSchema, { target: 'draft-2020-12' });
