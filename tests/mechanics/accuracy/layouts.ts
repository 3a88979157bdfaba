/** The reference layouts of the design, and a few invented ones beside them. Inches, pounds, degrees. */

// NIST SP 811.
export const inch = 0.0254;
export const pound = 4.4482216152605;
export const degree = Math.PI / 180;

/** A spring as it is measured before the job: inches, pounds, pounds an inch. */
export interface Layout {
	front: number;
	rear: number;
	rate: number;
	arch: number;
	eyeToPivot: number;
	pivotUp: number;
	shackleLength: number;
	stands: boolean;
	load: number;
}

/** The rest of the truck: inches, degrees. */
export interface Truck {
	layout: Layout;
	seatToAxle: number;
	pinionReach: number;
	pinionRise: number;
	wheelbase: number;
	transSlope: number;
	pinionSlope: number;
	shaftSlope: number;
	shaftLength: number;
}

export const truckA: Truck = {
	layout: {
		front: 24,
		rear: 30,
		rate: 160,
		arch: 3.5,
		eyeToPivot: 53.6,
		pivotUp: 4.6,
		shackleLength: 5,
		stands: false,
		load: 850,
	},
	seatToAxle: -3,
	pinionReach: 12,
	pinionRise: -1.5,
	wheelbase: 118,
	transSlope: 5,
	pinionSlope: 5,
	shaftSlope: 7,
	shaftLength: 58,
};

export const truckB: Truck = {
	layout: {
		front: 22,
		rear: 30,
		rate: 180,
		arch: 4,
		eyeToPivot: 50.2,
		pivotUp: -4,
		shackleLength: 4.5,
		stands: true,
		load: 900,
	},
	seatToAxle: -3.25,
	pinionReach: 11.5,
	pinionRise: -1.25,
	wheelbase: 115,
	transSlope: 4,
	pinionSlope: 3.5,
	shaftSlope: 6,
	shaftLength: 52,
};

/** Invented layouts beside the two of the design: even halves, a long leaf, a nearly flat one. */
export const layouts: readonly Layout[] = [
	truckA.layout,
	truckB.layout,
	{
		front: 26,
		rear: 26,
		rate: 200,
		arch: 5,
		eyeToPivot: 51.5,
		pivotUp: 3.8,
		shackleLength: 4,
		stands: false,
		load: 1000,
	},
	{
		front: 27,
		rear: 36,
		rate: 130,
		arch: 4.5,
		eyeToPivot: 63.4,
		pivotUp: 5.2,
		shackleLength: 5.5,
		stands: false,
		load: 900,
	},
	{
		front: 22,
		rear: 26,
		rate: 220,
		arch: 1,
		eyeToPivot: 47.2,
		pivotUp: -3.6,
		shackleLength: 4,
		stands: true,
		load: 800,
	},
];
