import type { FieldError } from './entered.js';

type Path = readonly (string | number)[];

/** Records which field each member of a body was typed into, so that errors appear next to their fields. */
export class Places {
  private readonly places: { path: Path; field: string }[] = [];
  readonly errors: FieldError[] = [];

  /** Records that a member, with everything in it, comes from a field. */
  note(path: Path, field: string): void {
    this.places.push({ path, field });
  }

  refuse(field: string, message: string): void {
    this.errors.push({ field, message });
  }

  /** The field of a member: the field recorded for the longest prefix of its path. */
  fieldOf(path: readonly PropertyKey[]): string | null {
    const holds = ({ path: noted }: { path: Path }): boolean =>
      noted.every((step, index) => step === path[index]);
    const best = this.places.filter(holds).sort((a, b) => b.path.length - a.path.length)[0];
    return best?.field ?? null;
  }
}

/** The steps of a JSON pointer in URI fragment form, RFC 6901. */
export const pathOf = (pointer: string): (string | number)[] =>
  pointer
    .split('/')
    .slice(1)
    .map((step) => decodeURIComponent(step).replaceAll('~1', '/').replaceAll('~0', '~'))
    .map((step) => (/^\d+$/.test(step) ? Number(step) : step));
