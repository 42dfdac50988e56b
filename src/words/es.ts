import { COMMAND_WORDS } from './en/command';
import { COLOR_WORDS_ES } from './es/color';
import { IDENTIFY_WORDS_ES } from './es/identify';
import { PHOTO_WORDS_ES } from './es/photo';
import { PROBLEM_WORDS_ES } from './es/problem';
import { RECORD_WORDS_ES } from './es/record';
import { SCREEN_WORDS_ES } from './es/screen';
import { TURNOVER_WORDS_ES } from './es/turnover';
import { VERIFY_WORDS_ES } from './es/verify';

/** The whole Spanish catalogue. The command line speaks English only, so its part is the English one. */
export const ES: Readonly<Record<string, string>> = {
  ...COMMAND_WORDS,
  ...COLOR_WORDS_ES,
  ...IDENTIFY_WORDS_ES,
  ...PHOTO_WORDS_ES,
  ...PROBLEM_WORDS_ES,
  ...RECORD_WORDS_ES,
  ...SCREEN_WORDS_ES,
  ...TURNOVER_WORDS_ES,
  ...VERIFY_WORDS_ES,
};
