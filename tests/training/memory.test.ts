/** Questions on a spaced schedule: the same answers give the same days. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  memoryDeck,
  memoryPlan,
  memorySchedule,
  type Reviewed,
  shownAnswers,
} from '../../src/training/memory.js';
import { planFor } from './shop.js';

const plan = planFor('P02-1');
const deck = memoryDeck(plan.route, plan.from.procedure);
const MORNING = '2026-03-02T07:00:00.000Z';
const later = (from: string, minutes: number) => new Date(Date.parse(from) + minutes * 60_000).toISOString();
const answer = (i: number, at: string, right = true, seconds = 8): Reviewed => ({
  card: deck[i]!.id,
  print: deck[i]!.print,
  right,
  seconds,
  at,
});

describe('the deck', () => {
  it('has one right answer among others, and the questions of the procedure first', () => {
    expect(deck.length).toBeGreaterThan(60);
    expect(new Set(deck.map((card) => card.id)).size).toBe(deck.length);
    expect(deck[0]!.id).toMatch(/\/question$/);
    for (const card of deck) {
      expect(card.wrong.length).toBeGreaterThan(0);
      expect(card.wrong).not.toContain(card.right);
      expect([...shownAnswers(card, 3)].sort()).toEqual([card.right, ...card.wrong].sort());
    }
  });

  it('is the same for another unit: what is learnt once is not asked anew', () => {
    const other = planFor('P05-1');
    const prints = new Map(
      memoryDeck(other.route, other.from.procedure).map((card) => [card.id, card.print]),
    );
    const both = deck.filter((card) => prints.has(card.id));
    expect(both.length).toBeGreaterThan(60);
    for (const card of both) expect(prints.get(card.id), card.id).toBe(card.print);
  });
});

describe('the schedule', () => {
  it("follows FSRS with the package's default parameters: ten minutes, then days", () => {
    // ts-fsrs defaults: learning steps 1 m and 10 m; first stability of "good" w[2] = 2.3065 days, so 2 days follow.
    const first = memorySchedule(deck, [answer(0, MORNING)]).get(deck[0]!.id)!;
    expect(first.due.toISOString()).toBe(later(MORNING, 10));
    const second = memorySchedule(deck, [answer(0, MORNING), answer(0, later(MORNING, 10))]).get(
      deck[0]!.id,
    )!;
    expect(second.due.toISOString()).toBe(later(MORNING, 10 + 2 * 24 * 60));
  });

  it('brings a wrong answer back sooner than a slow one, and a slow one no later than a quick one', () => {
    const due = (right: boolean, seconds: number) =>
      memorySchedule(deck, [
        answer(0, MORNING),
        answer(0, later(MORNING, 10)),
        answer(0, later(MORNING, 3 * 24 * 60), right, seconds),
      ])
        .get(deck[0]!.id)!
        .due.getTime();
    expect(due(false, 5)).toBeLessThan(due(true, 40));
    expect(due(true, 40)).toBeLessThan(due(true, 5));
  });

  it('is worked out from the answers alone', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            card: fc.nat(9),
            right: fc.boolean(),
            seconds: fc.nat(60),
            gap: fc.integer({ min: 1, max: 4000 }),
          }),
          { maxLength: 25 },
        ),
        (given) => {
          let at = MORNING;
          const reviews = given.map(({ card, right, seconds, gap }) => {
            at = later(at, gap);
            return answer(card, at, right, seconds);
          });
          const now = later(at, 600);
          expect(memoryPlan(deck, reviews, now)).toEqual(memoryPlan(deck, [...reviews], now));
          const sitting = memoryPlan(deck, reviews, now);
          // Five minutes hold fifteen questions, five of them new at most; the due ones come first.
          expect(sitting.cards.length).toBeLessThanOrEqual(15);
          expect(sitting.fresh).toBeLessThanOrEqual(5);
          const schedule = memorySchedule(deck, reviews);
          for (const card of sitting.cards.slice(0, Math.min(15, sitting.due)))
            expect(schedule.get(card.id)!.due.getTime()).toBeLessThanOrEqual(Date.parse(now));
        },
      ),
      { seed: 78, numRuns: 60 },
    );
  });

  it('teaches five new ones a day and no more, however often one sits down', () => {
    const reviews = Array.from({ length: 5 }, (_, i) => answer(i, MORNING));
    expect(memoryPlan(deck, [], MORNING).fresh).toBe(5);
    const again = memoryPlan(deck, reviews, later(MORNING, 5));
    expect(again).toMatchObject({ due: 0, fresh: 0, nextDue: later(MORNING, 10) });
    expect(memoryPlan(deck, reviews, later(MORNING, 24 * 60)).fresh).toBe(5);
  });

  it('asks anew what the procedure words anew', () => {
    const old = [{ ...answer(0, MORNING), print: 'another-wording' }];
    expect(memorySchedule(deck, old).has(deck[0]!.id)).toBe(false);
  });
});
