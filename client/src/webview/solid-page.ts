import type { Solid } from '@framewright/schemas/wire';
import type { FromPage } from '../drawing/messages';

/** How the page and the view in space, which is a script of its own, find each other. */
export interface SolidPage {
  show(solid: Solid): void;
}

declare global {
  interface Window {
    framewrightSolid?: (tell: (message: FromPage) => void) => SolidPage;
  }
}
