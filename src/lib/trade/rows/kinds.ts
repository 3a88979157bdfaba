/** The kinds of values that rows of several subjects share, and the sources they share. */
import type { Driveshaft, JointPlace } from '../../mechanics/driveshaft.ts';
import type { AxleFit, AxlePlace } from '../../mechanics/axle-fit.ts';
import type { SpringPlace } from '../../mechanics/spring-pose.ts';
import type { Stance } from '../../mechanics/spring-at-rest.ts';
import type { LeafSpring, SpringMount } from '../../mechanics/leaf-spring.ts';
import { quantity, record } from '../../language/function-row.ts';

export const number = quantity('number');
export const length = quantity('length');
export const angle = quantity('angle');
export const force = quantity('force');
export const mass = quantity('mass');
export const stiffness = quantity('stiffness');
export const torque = quantity('torque');
export const turningStiffness = quantity('turning stiffness');
export const speed = quantity('speed');
export const turningSpeed = quantity('turning speed');
export const turningAcceleration = quantity('turning acceleration');
export const pressure = quantity('pressure');
export const density = quantity('density');
export const curvature = quantity('curvature');

export const leaf = record<LeafSpring>('leaf spring', {
	length: ['length', length, 'eye to eye along the main leaf'],
	rate: ['rate', stiffness, 'at the seat'],
});
export const mount = record<SpringMount>('spring mount', {
	shackle_length: ['shackleLength', length, 'eye centre to eye centre'],
});
export const fit = record<AxleFit>('axle fit', {
	seat_to_axle: ['seatToAxle', length, 'middle of the main leaf to axle centre, block and all'],
	wedge: ['wedge', angle, 'nose-up positive'],
	wedge_thickness: ['wedgeThickness', length, 'at the centre bolt'],
});
export const place = record<SpringPlace>('spring in its place', {
	leaf: ['leaf', leaf, 'the spring itself'],
	arch: ['arch', length, 'of the main leaf at the centre bolt, below the line through its eyes'],
	chord: ['chord', length, 'eye to eye in a straight line'],
	load: ['load', force, 'along the plumb through the axle centre'],
	frame_turn: [
		'frameTurn',
		angle,
		'of the frame over the floor since before the job, nose-up positive',
	],
	curvature: [
		'curvature',
		curvature,
		'mean of both halves; positive bows below the line through the eyes',
	],
	difference: ['difference', curvature, 'of the front half less that of the rear half'],
	seat_forward: ['seatX', length, 'seat ahead of the stock front eye'],
	seat_up: ['seatZ', length, 'seat above the stock front eye'],
	seat_turn: ['seatTurn', angle, 'of the seat in the frame, nose-up positive'],
	rear_eye_forward: ['rearEyeX', length, 'rear eye ahead of the stock front eye'],
	rear_eye_up: ['rearEyeZ', length, 'rear eye above the stock front eye'],
	shackle_lean: [
		'shackleLean',
		angle,
		'of the shackle from upright, its spring end rearward positive',
	],
	axle_rise: ['axleRise', length, 'of the axle in the frame, since where it is taken from'],
	axle_forward: ['axleForward', length, 'of the axle in the frame, since where it is taken from'],
	axle_turned: [
		'axleTurned',
		angle,
		'of the axle in the frame, since where it is taken from, nose-up positive',
	],
});
export const stance = record<Stance>('stance', {
	wheelbase: ['wheelbase', length, 'axle to axle along the frame'],
});
export const axle = record<AxlePlace>('axle place', {
	forward: ['x', length, 'axle centre ahead of the stock front eye'],
	up: ['z', length, 'axle centre above the stock front eye'],
	turn: ['turn', angle, 'in the frame, nose-up positive'],
});
export const joint = record<JointPlace>('joint centre', {
	forward: ['x', length, 'ahead of the stock front eye'],
	up: ['z', length, 'above the stock front eye'],
});
export const shaft = record<Driveshaft>('driveshaft', {
	length: ['length', length, 'joint centre to joint centre'],
	slope: ['slope', angle, 'in the frame, down toward the rear positive'],
});

export const springModel =
	'two cantilevers of uniform strength, virtual work, the weight through the axle centre; SAE HS-788 (from memory)';
export const geometry = 'plane geometry';
export const practice = 'common practice, no source';
export const hooke = 'Khurmi & Gupta, Theory of Machines, Hooke’s joint (from memory)';
