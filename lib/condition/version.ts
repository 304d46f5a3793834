/**
 * Stored with every assessment. The first number rises when the same evidence under the same policy may get another
 * class, the second when only words, flags or figures beside the class change.
 */
export const ENGINE_VERSION = '10.0'
