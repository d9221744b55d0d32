import type { AxlePicture } from '../core/assessment/picture.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import { vehicleName } from './names.js';
import { wearSpecification } from './wearSpec.js';
import { axleInWords, pictureInWords } from './wearWords.js';

/** The drawing library is large, and most runs of the service draw nothing for a while. */
const loadVega = () => import('vega');

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const escaped = (text: string): string => text.replace(/[&<>"']/g, (character) => ENTITIES[character]!);

/** Everything that a picture is made from, so that two of them that are the same can be told without drawing either. */
export interface WearDrawing {
  title: string;
  description: string;
  specification: ReturnType<typeof wearSpecification>;
  /** Tells the ids of pictures on one page apart. */
  id: string;
}

export function wearDrawing(picture: AxlePicture, vehicle: VehicleBody): WearDrawing {
  return {
    title: `${axleInWords(picture.axle)} brakes of ${vehicleName(vehicle)}: readings, wear and forecast`,
    description: pictureInWords(picture),
    specification: wearSpecification(picture),
    id: `picture-${picture.axle}`,
  };
}

/** Draws it as SVG that needs nothing beside itself, with the same in words for who does not see it. */
export async function wearSvg({ title, description, specification, id }: WearDrawing): Promise<string> {
  const vega = await loadVega();
  const view = new vega.View(vega.parse(specification as never), { renderer: 'none' });
  try {
    const svg = await view.toSVG();
    const words = `<title id="${id}-title">${escaped(title)}</title><desc id="${id}-words">${escaped(description)}</desc>`;
    return svg.replace(
      /^<svg ([^>]*)>/,
      `<svg $1 role="img" aria-labelledby="${id}-title" aria-describedby="${id}-words">${words.replaceAll('$', '$$$$')}`,
    );
  } finally {
    view.finalize();
  }
}
