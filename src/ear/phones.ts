/** The phones of the CMU dictionary without stress, in the order of the head's outputs 1 to 39. */
export const PHONES = [
  ...['AA', 'AE', 'AH', 'AO', 'AW', 'AY', 'B', 'CH', 'D', 'DH', 'EH', 'ER', 'EY'],
  ...['F', 'G', 'HH', 'IH', 'IY', 'JH', 'K', 'L', 'M', 'N', 'NG', 'OW', 'OY'],
  ...['P', 'R', 'S', 'SH', 'T', 'TH', 'UH', 'UW', 'V', 'W', 'Y', 'Z', 'ZH'],
];

/** Output 0 of the head: no phone here. */
export const BLANK = 0;

/** Outputs of the head a frame: blank and the phones. */
export const OUTPUTS = PHONES.length + 1;

const outputs = new Map(PHONES.map((phone, index) => [phone, index + 1]));

/** The output of a phone, 1 to 39; undefined for what is no phone of the list. */
export const outputOf = (phone: string): number | undefined => outputs.get(phone);
