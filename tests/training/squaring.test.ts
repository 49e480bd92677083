/** The squaring drill: true numbers, a beatable bench, and a fair score. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveSquare } from '../../src/measure/square.js';
import { SQUARE_KEYS, type SquareKey } from '../../src/measure/types.js';
import { tapeError } from '../../src/measure/uncertainty.js';
import { actSquaring } from '../../src/training/squaring/act.js';
import { beginSquaring } from '../../src/training/squaring/begin.js';
import {
  BAR,
  type Drill,
  FAULTS,
  FEELER,
  type GameLevel,
  gapsOf,
  OPEN_MINUTES,
  outside,
  pushed,
  statedError,
  TAPE,
  trueLengths,
  USUAL_LIMITS,
} from '../../src/training/squaring/model.js';
import { scoreSquaring } from '../../src/training/squaring/remarks.js';
import { parseSquaring, scoreText, squaringTask } from '../../src/training/squaring/words.js';
import { type Bench, perfectPlayer } from './perfectplayer.js';

/** Plays typed lines. */
function play(drill: Drill, ...lines: string[]): Drill {
  return lines.reduce((at, line) => {
    const parsed = parseSquaring(line);
    if ('problem' in parsed) throw new Error(parsed.problem.text);
    return actSquaring(at, parsed.action);
  }, drill);
}

/** The apprentice's view: lines in, sentences out. Nothing of `hidden` passes here. */
function benchOf(start: Drill): { bench: Bench; drill: () => Drill } {
  let drill = start;
  return {
    drill: () => drill,
    bench: {
      task: squaringTask(start),
      nominal: start.nominal,
      limits: start.limits,
      type: (line) => {
        drill = play(drill, line);
        return drill.log.at(-1)!.says;
      },
      minutesLeft: () => OPEN_MINUTES - drill.minute,
      over: () => drill.ended !== undefined,
    },
  };
}

const levels = fc.constantFrom<GameLevel>(1, 2, 3);

describe('the hidden fault and the readings', () => {
  it('every reading is the true length within the stated error, but for the slip and the worn hook', () => {
    fc.assert(
      fc.property(
        fc.integer(),
        levels,
        fc.array(fc.tuple(fc.constantFrom(...SQUARE_KEYS, 'bar' as const), fc.boolean()), {
          minLength: 1,
          maxLength: 30,
        }),
        (seed, level, readings) => {
          let drill = beginSquaring({ seed, level });
          const truth = trueLengths(drill.hidden.frame);
          const { faults } = drill.hidden;
          const worn = faults.find((fault) => fault.kind === 'hook')?.mm ?? 0;
          const seen = new Set<string>();
          for (const [what, hundred] of readings) {
            drill = play(
              drill,
              hundred ? 'start 100' : 'start hook',
              what === 'bar' ? 'bar' : `read ${what}`,
            );
            const slip = faults.find((fault) => fault.kind === 'slip' && fault.at === what);
            const off = (hundred ? 0 : worn) + (slip && !seen.has(what) ? slip.mm : 0);
            seen.add(what);
            const length = what === 'bar' ? BAR : truth[what];
            const { value } = drill.taken.at(-1)!;
            expect(Math.abs(value - off - length)).toBeLessThanOrEqual(
              statedError(length, hundred ? '100' : 'hook') + 1e-9,
            );
            expect(Math.abs((value * 2) % 1)).toBe(0);
          }
        },
      ),
      { seed: 71, numRuns: 250 },
    );
  });

  it("the stated error is the tape's class (MI-008: a + bL + c) with placing and half a step", () => {
    // Directive 2014/32/EU annex X: class II at 2.0 m is 0.7, at 1.2 m 0.7, at 0.45 m 0.5; a hook adds 0.2.
    expect(statedError(2000, '100')).toBeCloseTo(0.7 + 0.25 + 0.25);
    expect(statedError(450, 'hook')).toBeCloseTo(tapeError('II', 450, true) + 0.5);
  });

  it('true lengths are a figure that closes, and have the faults that were seeded', () => {
    fc.assert(
      fc.property(fc.integer(), levels, (seed, level) => {
        const { hidden, nominal, limits } = beginSquaring({ seed, level });
        const truth = trueLengths(hidden.frame);
        const solution = solveSquare(Object.fromEntries(SQUARE_KEYS.map((key) => [key, [truth[key]]])), {
          instrument: TAPE,
          nominal,
        });
        // A lifted corner of at most 8 mm lengthens a diagonal by less than 0.1 mm, and that is all that is open.
        expect(Math.abs(solution.misclosure!)).toBeLessThan(0.1);
        const real = hidden.faults.some((fault) => fault.kind !== 'slip' && fault.kind !== 'hook');
        expect(outside(hidden.frame, nominal, limits).length > 0).toBe(real);
      }),
      { seed: 72, numRuns: 200 },
    );
  });

  it('feeler readings are the gaps within their error', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const drill = play(beginSquaring({ seed, faults: ['twisted'] }), 'flat');
        const gaps = gapsOf(drill.hidden.frame);
        for (const corner of ['bl', 'br', 'tr', 'tl'] as const)
          expect(Math.abs(drill.flats[0]!.gaps[corner] - gaps[corner])).toBeLessThanOrEqual(FEELER + 1e-9);
      }),
      { seed: 73, numRuns: 200 },
    );
  });

  it('a push of the long diagonal moves the figure as the parallelogram law says', () => {
    // d1² + d2² = 2(W² + H²): 1500 pushed down to 1498 on 900 x 1200 makes the other sqrt(2·1500² − 1498²).
    const frame = { sides: { top: 900, bottom: 900, left: 1200, right: 1200 }, difference: 0, twist: 0 };
    const after = trueLengths(pushed(frame, 'bl_tr', 2));
    expect(after.bl_tr).toBeCloseTo(1498, 6);
    expect(after.br_tl).toBeCloseTo(Math.sqrt(2 * 1500 ** 2 - 1498 ** 2), 6);
  });

  it('the same seed is the same drill', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const lines = ['read top', 'read bl-tr', 'flat', 'push bl-tr 2', 'recut top 900', 'read top'];
        expect(play(beginSquaring({ seed }), ...lines)).toEqual(play(beginSquaring({ seed }), ...lines));
      }),
      { seed: 74, numRuns: 50 },
    );
  });
});

describe('a perfect player', () => {
  it.each([1, 2, 3] as const)('ends within tolerance at level %i, over 200 seeds', (level) => {
    const points: number[] = [];
    for (let seed = 1; seed <= 200; seed++) {
      const { bench, drill } = benchOf(beginSquaring({ seed, level }));
      perfectPlayer(bench);
      const score = scoreSquaring(drill());
      expect(drill().ended, `seed ${seed}: ${scoreText(score).join('\n')}`).toBe('right');
      points.push(score.points);
    }
    // It decides well, too: nobody who plays so would fail the drill often.
    expect(points.filter((each) => each >= 75).length / points.length).toBeGreaterThan(0.9);
  });

  it('copes with every fault by itself', () => {
    for (const fault of FAULTS)
      for (let seed = 1000; seed < 1040; seed++) {
        const { bench, drill } = benchOf(beginSquaring({ seed, faults: [fault] }));
        perfectPlayer(bench);
        expect(drill().ended, `${fault} ${seed}`).toBe('right');
      }
  });
});

describe('the score', () => {
  const racked = () => beginSquaring({ seed: 5, faults: ['racked'], nominal: { w: 1000, h: 1200 } });
  const long = (drill: Drill) => (drill.hidden.frame.difference > 0 ? 'bl-tr' : 'br-tl');
  const short = (drill: Drill) => (drill.hidden.frame.difference > 0 ? 'br-tl' : 'bl-tr');

  it('passing a wrong frame on fails, with the limit that it breaks', () => {
    const score = scoreSquaring(play(racked(), 'done'));
    expect(score.ended).toBe('passed-wrong');
    expect(score.passed).toBe(false);
    expect(scoreText(score).join('\n')).toMatch(/difference of diagonals: .* mm of 2, outside/);
    expect(scoreText(score).join('\n')).toMatch(/Not named: racked/);
  });

  it('pushing the short diagonal costs, pushing the long one does not', () => {
    const drill = play(racked(), 'read bl-tr', 'read br-tl');
    const bad = play(drill, `push ${short(drill)} 2`).log.at(-1)!.remarks;
    const right = play(drill, `push ${long(drill)} 2`).log.at(-1)!.remarks;
    expect(bad.map(({ good, points }) => [good, points])).toEqual([[false, -10]]);
    expect(right.map(({ good, points }) => [good, points])).toEqual([[true, 0]]);
  });

  it('a forced or set corner ruins the frame', () => {
    expect(play(racked(), 'push bl-tr 20').ended).toBe('ruined');
    const late = play(racked(), ...Array.from({ length: 62 }, () => 'read top'));
    const forced = play(late, `push ${long(late)} 1`);
    expect(forced.ended).toBe('ruined');
    expect(scoreSquaring(forced).passed).toBe(false);
    expect(scoreText(scoreSquaring(forced)).join('\n')).toContain('a set corner is never forced');
    // Raising a snag is the right end then.
    expect(play(late, 'snag').log.at(-1)!.remarks[0]!.good).toBe(true);
  });

  it('a good member cut anew for a worn hook is said to have been good', () => {
    const drill = play(
      beginSquaring({ seed: 3, faults: ['hook'], nominal: { w: 900, h: 900 } }),
      'read top',
      'recut top 900',
    );
    expect(drill.log.at(-1)!.remarks[0]).toMatchObject({ good: false, points: -15 });
    expect(drill.log.at(-1)!.remarks[0]!.text).toContain('reference bar');
  });

  it('more readings than needed cost a point each', () => {
    const many = Array.from({ length: 20 }, (_, i) => `read ${(['top', 'left'] as SquareKey[])[i % 2]}`);
    const score = scoreSquaring(play(racked(), ...many));
    expect(score.remarks.at(-1)).toMatchObject({ about: 'reading', good: false, points: -6 });
  });

  it('an ended drill takes no further action', () => {
    const over = play(racked(), 'done');
    expect(play(over, 'push bl-tr 2')).toBe(over);
  });
});

describe('what is typed', () => {
  it.each([
    'read',
    'read middle',
    'push top 3',
    'push bl-tr',
    'push bl-tr -2',
    'recut bl-tr 900',
    'say short',
    'xyz',
    'done now please',
  ])('refuses "%s" with a way out', (line) => {
    const parsed = parseSquaring(line);
    expect('problem' in parsed && parsed.problem.id).toBe('train.action');
  });
  it('takes lengths with a comma', () => {
    expect(parseSquaring('recut left 1199,5')).toEqual({
      action: { do: 'recut', member: 'left', mm: 1199.5 },
    });
  });
  it('limits of a tighter workshop make smaller faults', () => {
    const tight = { ...USUAL_LIMITS, diagonals: 1 };
    for (let seed = 0; seed < 30; seed++)
      expect(
        Math.abs(beginSquaring({ seed, faults: ['racked'], limits: tight }).hidden.frame.difference),
      ).toBeLessThanOrEqual(5);
  });
});
