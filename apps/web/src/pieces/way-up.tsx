import { Choice } from '../parts/field.js';
import { faces, headings } from './piece-words.js';

/** Which way up a piece lay: the face with the tag, and where the tag's arrow points. */
export function WayUp({
  prefix,
  face,
  heading,
}: {
  prefix: string;
  face?: string | null | undefined;
  heading?: string | null | undefined;
}) {
  return (
    <div className="side-by-side">
      <Choice id={`${prefix}-face`} name="face" label="The tag is on its face" defaultValue={face ?? ''}>
        <option value="">not said</option>
        {Object.entries(faces).map(([value, said]) => (
          <option key={value} value={value}>
            {said}
          </option>
        ))}
      </Choice>
      <Choice id={`${prefix}-heading`} name="heading" label="Its arrow points" defaultValue={heading ?? ''}>
        <option value="">not said</option>
        {Object.entries(headings).map(([value, said]) => (
          <option key={value} value={value}>
            {said}
          </option>
        ))}
      </Choice>
    </div>
  );
}
