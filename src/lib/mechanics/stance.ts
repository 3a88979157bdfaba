/** How the frame stands on the floor. SI; turn positive nose-up. */
import { finite, positive } from './out-of-range.ts';

/**
 * Turn of the frame from a drop at each end: atan2(rear − front, wheelbase), radians, nose-up positive.
 * ISO 8855 calls this the pitch angle, with the sign turned round.
 * @param frontDrop m, down positive
 * @param rearDrop m, down positive
 * @param wheelbase m
 * @throws OutOfRange when the wheelbase is not above zero
 */
export function frameTurn(frontDrop: number, rearDrop: number, wheelbase: number): number {
	positive('The wheelbase', wheelbase, 'm');
	finite('The front drop', frontDrop);
	finite('The rear drop', rearDrop);
	return Math.atan2(rearDrop - frontDrop, wheelbase);
}
