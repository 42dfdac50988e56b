/**
 * A catalogue in another language: the same codes as the English one, no more and no fewer. A sentence that is
 * missing, or that English no longer has, is a type error in the language's file.
 */
export type Translation<English extends Readonly<Record<string, string>>> = Readonly<Record<keyof English, string>>;
