import cvRaw from 'opencv-ts';

/**
 * Boxed because OpenCV's module object has a `then` that resolves with itself: handed through a promise or a
 * module namespace bare, it is taken for a promise and never settles.
 */
export const box = { cv: cvRaw };
