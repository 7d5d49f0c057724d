/** Compiles only where what the server says it tells fits what the page takes it for; holds nothing at run time. The
 * description is that of schema/openapi.json, turned into types by `npm run check`. */

import type { components } from './openapi.generated';
import type { Explained, FaultDoc, Finding, FormTable, Plan } from './types';

type Told = components['schemas'];
type Fits<Wanted, Given extends Wanted> = Given;

export type Matches = [
  Fits<Plan, Told['PlanAnswer']>,
  Fits<Finding, Told['FindingAnswer']>,
  Fits<FormTable, Told['FormTable']>,
  Fits<FaultDoc, Told['FaultAnswer']>,
  Fits<Explained, Told['Explained']>,
];
