/** The public face of the condition engine: pure, without a clock, the same on a server, in a browser and in a script. */
export * from './types'
export { ENGINE_VERSION } from './version'
export { defaultPolicy, policySchema } from './policy'
export { POLICY_WORDS, type PolicySource, type PolicyWord } from './policy-words'
export { conductorByCode, CONDUCTORS, isSingleLayerAcsr, temperatureFactor, type Conductor } from './conductor-table'
