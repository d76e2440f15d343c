/** Longest side of a picture that is sent, in pixels, and its most bytes. */
const longestSide = 1600;
const mostBytes = 1_200_000;
const qualities = [0.82, 0.7, 0.55, 0.4];

/**
 * Draws a picture anew, smaller and upright, so that nothing but what can be seen is sent: not where it was taken,
 * nor when, nor with what. Base 64 of a JPEG; null when the browser cannot read the file as a picture.
 */
export async function shrunk(file: File): Promise<string | null> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (!picture) return null;
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  for (const quality of qualities) {
    const made = await new Promise<Blob | null>((done) => {
      canvas.toBlob(done, 'image/jpeg', quality);
    });
    if (made && made.size <= mostBytes) return base64Of(made);
  }
  return null;
}

async function base64Of(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192)
    text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(text);
}
