/** All steps of a piece of work, one after another: what it comes to. */
export function atOnce<T>(steps: Iterator<unknown, T>): T {
	let step = steps.next();
	while (!step.done) step = steps.next();
	return step.value;
}
