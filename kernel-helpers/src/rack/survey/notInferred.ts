/** A type that must be known from elsewhere: an option does not decide what the answers or the questions are. */
export type NotInferred<T> = [T][T extends unknown ? 0 : never];
