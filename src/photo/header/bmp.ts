import { Problem } from '../../flow';
import { u32le } from '../bytes';
import type { PictureHeader } from './types';

/** Windows bitmap with a 40-byte or longer information header; a negative height means rows run downward. */
export function readBmpHeader(bytes: Uint8Array): PictureHeader {
  const declared = u32le(bytes, 2) ?? 0;
  const width = u32le(bytes, 18);
  const height = u32le(bytes, 22);
  if (width === undefined || height === undefined || declared > bytes.length) throw new Problem('truncated picture');
  return { width, height: Math.abs(height | 0), animated: false };
}
