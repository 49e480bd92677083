/** What the mass calls for when the unit is moved by hand. A reminder: not an assessment of the work. */

/**
 * HSE lifting filter, kg, held close to the body between elbow and knuckle: men 25, women 16 (HSE INDG143 / L23, as
 * publicly reproduced). It is a filter and no legal limit, and it is less at arm's length, higher, lower or twisting.
 */
export const FILTER = { men: 25, women: 16 } as const;
/** Above twice the men's figure a team of two is past the filter however it holds the unit. */
const TWO = 2 * FILTER.men;

export const liftOf = (mass: number): 'one person' | 'two people' | 'lifting aid' =>
  mass <= FILTER.men ? 'one person' : mass <= TWO ? 'two people' : 'lifting aid';

export function liftSentence(mass: number): string {
  const about = `${mass.toFixed(1)} kg`;
  const source = "HSE INDG143 lifting filter; not a legal limit, less at arm's length, overhead or twisting";
  switch (liftOf(mass)) {
    case 'one person':
      return mass > FILTER.women
        ? `${about}: one person, held close between elbow and knuckle height, only where that is within their own filter (men ${FILTER.men}, women ${FILTER.women} kg); else two people (${source}).`
        : `${about}: one person, held close (${source}).`;
    case 'two people':
      return `${about}: two people or a lifting aid (${source}).`;
    default:
      return `${about}: a lifting aid (${source}).`;
  }
}
