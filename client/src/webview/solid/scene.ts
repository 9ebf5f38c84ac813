import type { Solid } from '@framewright/schemas/wire';
import { Color, OrthographicCamera, Scene, Vector3, WebGLRenderer } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import type { Projection } from './look';
import { linesOf, type Stroke, strokes } from './picture';
import type { Colours } from './svg';

/** The lines of the body in WebGL, seen square to the sheet as `look.ts` has it. */
export class SolidScene {
  private readonly scene = new Scene();
  private readonly camera = new OrthographicCamera();
  private readonly renderer: WebGLRenderer;
  private objects: {
    readonly lines: LineSegments2;
    readonly material: LineMaterial;
    readonly stroke: Stroke;
  }[] = [];

  /** Throws where the browser has no WebGL. */
  constructor() {
    this.renderer = new WebGLRenderer({ antialias: true, alpha: true });
    this.renderer.setPixelRatio(devicePixelRatio);
  }

  get canvas(): HTMLCanvasElement {
    return this.renderer.domElement;
  }

  put(solid: Solid, colours: Colours): void {
    for (const { lines, material } of this.objects) {
      this.scene.remove(lines);
      lines.geometry.dispose();
      material.dispose();
    }
    this.objects = [...linesOf(solid)].map(([kind, each]) => {
      const stroke = strokes[kind];
      const geometry = new LineSegmentsGeometry().setPositions(each.flat(2));
      const { colour, opacity } = solidColour(colours[stroke.colour]);
      const material = new LineMaterial({
        color: new Color(colour).getHex(),
        linewidth: stroke.width,
        dashed: stroke.dash !== null,
        transparent: true,
        opacity: stroke.opacity * opacity,
        // lines of a drawing: none hides another
        depthTest: false,
      });
      const lines = new LineSegments2(geometry, material);
      if (stroke.dash !== null) lines.computeLineDistances();
      this.scene.add(lines);
      return { lines, material, stroke };
    });
  }

  draw({ sheet, pxPerMm, middle, size }: Projection): void {
    const { camera } = this;
    const [halfWidth, halfHeight] = [size.width / 2 / pxPerMm, size.height / 2 / pxPerMm];
    Object.assign(camera, {
      left: -halfWidth,
      right: halfWidth,
      top: halfHeight,
      bottom: -halfHeight,
      near: 0,
      far: 2e6,
    });
    const [right, up, out] = [sheet.right, sheet.up, sheet.out].map((each) => new Vector3(...each));
    const eye = right.multiplyScalar(middle[0]).addScaledVector(up, middle[1]);
    camera.position.copy(eye).addScaledVector(out, 1e6);
    camera.up.copy(up);
    camera.lookAt(eye);
    camera.updateProjectionMatrix();
    for (const { material, stroke } of this.objects) {
      if (stroke.dash === null) continue;
      // dashes are as long on the sheet however near it is
      material.dashSize = stroke.dash[0] / pxPerMm;
      material.gapSize = stroke.dash[1] / pxPerMm;
    }
    this.renderer.setSize(size.width, size.height, false);
    this.renderer.render(this.scene, camera);
  }
}

/** A colour without its share of transparency, which lines have apart. */
function solidColour(colour: string): { colour: string; opacity: number } {
  const found = /^rgba\(([^,]+),([^,]+),([^,]+),([^)]+)\)$/.exec(colour.replaceAll(' ', ''));
  if (found === null) return { colour: colour.length === 9 ? colour.slice(0, 7) : colour, opacity: 1 };
  const [, r, g, b, a] = found;
  return { colour: `rgb(${r}, ${g}, ${b})`, opacity: Number(a) };
}
