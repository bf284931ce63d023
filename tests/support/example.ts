/** The example railroad of the design: west end, passing main and siding, east end. Two cabs on one supply, a third on another. */
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import passingSiding from './passing-siding.railroad.json' with { type: 'json' };

/** `shared/examples/passing-siding.railroad.json` of the design, kept here word for word. */
export const passingSidingExample: RailroadDocument = railroadDocument.parse(passingSiding);
