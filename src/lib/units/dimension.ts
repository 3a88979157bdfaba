/** Dimensions of quantities: the exponents of mass, length, time, angle and money. */
export type Dimension = readonly [
	mass: number,
	length: number,
	time: number,
	angle: number,
	money: number,
];

export const plainNumber: Dimension = [0, 0, 0, 0, 0];
export const length: Dimension = [0, 1, 0, 0, 0];
export const angle: Dimension = [0, 0, 0, 1, 0];
export const mass: Dimension = [1, 0, 0, 0, 0];
export const time: Dimension = [0, 0, 1, 0, 0];
export const force: Dimension = [1, 1, -2, 0, 0];
/** Force for each length, as of a spring. */
export const stiffness: Dimension = [1, 0, -2, 0, 0];
export const bendingStiffness: Dimension = [1, 3, -2, 0, 0];
export const torque: Dimension = [1, 2, -2, 0, 0];
/** Torque for each angle. */
export const turningStiffness: Dimension = [1, 2, -2, -1, 0];
export const speed: Dimension = [0, 1, -1, 0, 0];
export const turningSpeed: Dimension = [0, 0, -1, 1, 0];
export const turningAcceleration: Dimension = [0, 0, -2, 1, 0];
export const frequency: Dimension = [0, 0, -1, 0, 0];
export const pressure: Dimension = [1, -1, -2, 0, 0];
export const density: Dimension = [1, -3, 0, 0, 0];
export const power: Dimension = [1, 2, -3, 0, 0];
export const curvature: Dimension = [0, -1, 0, 0, 0];
/** Of whatever country; it has no unit. */
export const money: Dimension = [0, 0, 0, 0, 1];
export const area: Dimension = [0, 2, 0, 0, 0];

export function sameDimension(a: Dimension, b: Dimension): boolean {
	return a.every((exponent, index) => Math.abs(exponent - (b[index] ?? 0)) < 1e-9);
}

export function isPlainNumber(dimension: Dimension): boolean {
	return sameDimension(dimension, plainNumber);
}

export function timesDimension(a: Dimension, b: Dimension, sign: 1 | -1 = 1): Dimension {
	return [
		a[0] + sign * b[0],
		a[1] + sign * b[1],
		a[2] + sign * b[2],
		a[3] + sign * b[3],
		a[4] + sign * b[4],
	];
}

export function dimensionToPower(a: Dimension, power: number): Dimension {
	return [a[0] * power, a[1] * power, a[2] * power, a[3] * power, a[4] * power];
}

const named: readonly (readonly [string, Dimension])[] = [
	['number', plainNumber],
	['length', length],
	['angle', angle],
	['mass', mass],
	['time', time],
	['force', force],
	['stiffness', stiffness],
	['bending stiffness', bendingStiffness],
	['torque', torque],
	['turning stiffness', turningStiffness],
	['speed', speed],
	['turning speed', turningSpeed],
	['turning acceleration', turningAcceleration],
	['frequency', frequency],
	['pressure', pressure],
	['density', density],
	['power', power],
	['curvature', curvature],
	['area', area],
	['money', money],
];

/** A dimension in words: "length", "force"; those without a name as their product: "mass·time⁻¹". */
export function dimensionInWords(dimension: Dimension): string {
	const found = named.find(([, known]) => sameDimension(known, dimension));
	if (found) return found[0];
	const bases = ['mass', 'length', 'time', 'angle', 'money'];
	return bases
		.map((base, index) => {
			const exponent = dimension[index] ?? 0;
			return exponent === 0 ? '' : exponent === 1 ? base : `${base}^${exponent.toString()}`;
		})
		.filter(Boolean)
		.join('·');
}

/** The dimension of this name, if it has one. */
export function dimensionNamed(name: string): Dimension | undefined {
	return named.find(([known]) => known === name)?.[1];
}

export const dimensionNames: readonly string[] = named.map(([name]) => name);
