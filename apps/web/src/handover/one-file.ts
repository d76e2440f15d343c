/** What the file looks like: paper and ink, whatever opens it. */
const sheet = `body { max-width: 48rem; margin: 2rem auto; padding: 0 1rem; font: 1.05rem/1.5 Georgia, serif; }
article { margin-top: 2rem; border-top: 1px solid #999; }
img { max-width: 100%; height: auto; }
figure { margin: 1rem 0; }
figcaption { font-style: italic; }
ol { padding-left: 0; list-style: none; }`;

/** Saves what stands on the page as one HTML file that needs nothing else: its pictures lie in it. */
export async function saveAsOneFile(pack: HTMLElement | null, title: string): Promise<void> {
  if (!pack) throw new Error('there is nothing on the page yet');
  const copy = pack.cloneNode(true) as HTMLElement;
  for (const image of copy.querySelectorAll('img')) image.src = await inText(image.src);
  const html = wholeFile(title, copy.innerHTML);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([html], { type: 'text/html' }));
  link.download = `${fileName(title)}.html`;
  link.click();
  URL.revokeObjectURL(link.href);
}

export function wholeFile(title: string, body: string): string {
  const safe = title.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${safe}</title>
<style>
${sheet}
</style>
</head>
<body>
<h1>${safe}</h1>
${body}
</body>
</html>
`;
}

/** "Signe Holvang: what was done to her" as a name that every machine takes. */
export const fileName = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'handover';

/** A picture as text, to lie in the file itself. */
async function inText(address: string): Promise<string> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address} answers with ${answer.status}`);
  const picture = await answer.blob();
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => {
      resolve(reader.result as string);
    };
    reader.onerror = () => {
      reject(reader.error ?? new Error('the picture cannot be read'));
    };
    reader.readAsDataURL(picture);
  });
}
