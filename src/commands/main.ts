#!/usr/bin/env node
// The program. `npm run build` puts what stands in start.ts, with all that it needs, in one file beside this one.

import { compileWhole, startWhole } from './whole.js';

startWhole(compileWhole());
