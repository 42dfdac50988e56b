import { COLOR_WORDS } from './en/color';
import { COMMAND_WORDS } from './en/command';
import { IDENTIFY_WORDS } from './en/identify';
import { PHOTO_WORDS } from './en/photo';
import { PROBLEM_WORDS } from './en/problem';
import { RECORD_WORDS } from './en/record';
import { SCREEN_WORDS } from './en/screen';
import { TURNOVER_WORDS } from './en/turnover';
import { VERIFY_WORDS } from './en/verify';

/** The whole English catalogue. Each room keeps its own part, so that no two people edit one file. */
export const EN: Readonly<Record<string, string>> = {
  ...COLOR_WORDS,
  ...COMMAND_WORDS,
  ...IDENTIFY_WORDS,
  ...PHOTO_WORDS,
  ...PROBLEM_WORDS,
  ...RECORD_WORDS,
  ...SCREEN_WORDS,
  ...TURNOVER_WORDS,
  ...VERIFY_WORDS,
};
