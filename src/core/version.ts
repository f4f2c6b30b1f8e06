/**
 * Version of the models: it changes whenever any function gives another number for the same arguments, so that two
 * people can see that they compute alike.
 */
export const MODEL_VERSION = "2026.1";
