/** All measurements of `npm run bench`, one section after the other. Times depend on the machine; compare within one run. */
import { coversBench } from './covers.js';
import { solverBench } from './solver.js';

await solverBench();
await coversBench();
