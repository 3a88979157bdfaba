/**
 * What is tried at random is tried alike each time, so that a change is blamed for what it did and for nothing
 * else. `npm run fuzz` tries with a new seed, which a failure names; `SEED=… npm run unit` tries that again.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env['SEED'] ?? 1128) });
