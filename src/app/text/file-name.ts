/** A title as a file name every system takes. */
export const fileName = (title: string): string =>
  title
    .normalize('NFKD')
    .replaceAll(/[^\w.-]+/g, '-')
    .replaceAll(/^[-.]+|[-.]+$/g, '')
    .slice(0, 80) || 'job';
