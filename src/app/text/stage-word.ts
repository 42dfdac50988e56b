import { say } from './say';
import { t } from './t';

/** What the engine is doing, in words; a stage without words of its own is plain work. */
export function stageWord(stage: string): string {
  const code = `screen.stage.${stage.replaceAll(' ', '-')}`;
  const said = say({ code });
  return said === code ? t('screen.stage.work') : said;
}
