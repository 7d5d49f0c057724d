/** Words of a ball card. */

import type { BallCard } from '../plan';
import { bare, span } from '../said';
import type { Units } from '../types';
import { shown, told } from '../units';

/** Distance between two seats, in standard deviations of the landing, below which volume cannot tell them apart. */
const APART = 3;

/** When it is launched. */
export function leaves(c: BallCard, u: Units): string {
  return c.launched_during === 0 ? `before stage 1, at ${told(c.launch_at, 'volume', u)}` : `in stage ${c.launched_during}, at ${told(c.launch_at, 'volume', u)}`;
}

/** The rate of the last stretch. */
export function rateCut(c: BallCard, u: Units): string {
  return c.rate_before.value > c.landing_rate.value
    ? `${bare(c.rate_before, 'rate', u)} to ${told(c.landing_rate, 'rate', u)}`
    : `${told(c.landing_rate, 'rate', u)} all the way`;
}

/** How near the next seat toe-ward is. */
export function spacing(c: BallCard, u: Units): string {
  if (!c.spacing) return 'none below it';
  return `${told(c.spacing, 'volume', u)} toe-ward${c.spacing_sigmas ? `, ${bare(c.spacing_sigmas, 'number', u, 1)} sigma` : ''}`;
}

/** What must be minded. */
export function cautions(c: BallCard, u: Units): string[] {
  const lines: string[] = [];
  if (!c.chosen.allowed) lines.push('No landing rate keeps trip and impact: do not launch before this is settled.');
  if (c.chosen.opens_on_contact) lines.push('The first step may open the sleeve by itself: there may be no rise to see.');
  if (!c.chosen.visible) lines.push("The recorder may not show this landing: watch the pressure by hand, go by the stage's own response.");
  if (c.spacing_sigmas && c.spacing_sigmas.value < APART) lines.push(`The next seat is ${spacing(c, u)}: volume does not tell which seat it is on.`);
  return lines;
}

/** What the surface should see when it lands, at the nominal value of the sleeve. */
export function signature(c: BallCard, u: Units): { what: string; text: string; name?: string }[] {
  const s = c.chosen.signature;
  return [
    { what: 'Pressure before', text: told(c.chosen.before, 'pressure', u) },
    { what: 'Rise', name: `ball.${c.stage}.rise`, text: told(s.rise, 'pressure', u) },
    { what: 'Seen after landing by', text: span(s.delay) },
    { what: 'Lasts', text: span(s.lasts) },
    { what: 'Slope', text: `${bare(s.slope, 'pressure', u)} ${shown('pressure', u).unit}/s` },
    { what: 'Spike, if the sleeve is slow', text: told(s.spike, 'pressure', u) },
    { what: 'Highest expected', text: told(c.chosen.highest, 'pressure', u) },
    { what: 'Room to the trip', text: told(c.chosen.below_trip, 'pressure', u) },
  ];
}
