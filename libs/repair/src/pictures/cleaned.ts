/** A picture without what is said about it. */
export interface PictureBody {
  /** Pixels. */
  width: number;
  height: number;
  bytes: Buffer;
}

/** What a format's reader makes of the bytes; null if they are no whole picture. */
export type Cleaned = PictureBody | null;
