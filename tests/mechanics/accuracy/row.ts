/** One line of the accuracy table: the largest error found against a truth from outside. */
export interface AccuracyRow {
	/** The figure, in the trade's words. */
	figure: string;
	/** What it was held against. */
	against: string;
	/** Largest error found, in `unit`, not negative. */
	error: number;
	/** Unit of the three numbers. */
	unit: string;
	/** The tolerance the tests hold it to now. */
	held: number;
	/** The tolerance aimed at. */
	aimed: number;
}
