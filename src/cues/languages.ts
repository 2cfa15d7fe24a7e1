/** The language of the shipped ear and voice, and of the measured durations. */
export const OWN_LANGUAGE = 'en';

/**
 * Whether the ear on the device has phones of a language. Where it has none, nothing is spoken to
 * it: replies are typed or come from the hands, and no pronunciation is asked for or compared.
 */
export const hasPhones = (language: string): boolean => language === OWN_LANGUAGE;

/** Whether the shipped voice speaks a language. */
export const isShippedVoice = (language: string): boolean => language === OWN_LANGUAGE;
