/** What a container says of its picture before any pixel is decoded. */
export interface PictureHeader {
  /** Pixels as stored, before EXIF orientation. */
  readonly width: number;
  readonly height: number;
  /** More than one frame; only the first is read. */
  readonly animated: boolean;
  /** The EXIF block as a bare TIFF stream, where the container has one. A view, not a copy. */
  readonly exif?: Uint8Array;
}
