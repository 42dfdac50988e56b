/**
 * The few parts of OpenCV 4.5.5 that are used, with types that are right: the package's own are incomplete and
 * partly wrong. Exceptions come as numbers; `cvError` makes them readable.
 */
export interface CvMat {
  readonly rows: number;
  readonly cols: number;
  readonly data: Uint8Array;
  readonly data32F: Float32Array;
  delete(): void;
}

export interface CvSize {
  readonly width: number;
  readonly height: number;
}

export interface Cv {
  Mat: { new (): CvMat; new (rows: number, cols: number, type: number): CvMat };
  Size: new (width: number, height: number) => CvSize;
  cvtColor(source: CvMat, target: CvMat, code: number): void;
  GaussianBlur(source: CvMat, target: CvMat, size: CvSize, sigmaX: number): void;
  Scharr(source: CvMat, target: CvMat, depth: number, dx: number, dy: number, scale: number): void;
  resize(source: CvMat, target: CvMat, size: CvSize, fx: number, fy: number, interpolation: number): void;
  readonly CV_8UC1: number;
  readonly CV_8UC4: number;
  readonly CV_32F: number;
  readonly COLOR_RGBA2RGB: number;
  readonly COLOR_RGB2Lab: number;
  readonly INTER_AREA: number;
  exceptionFromPtr?(pointer: number): { msg: string };
  onRuntimeInitialized?: () => void;
  onAbort?: (reason: unknown) => void;
}
