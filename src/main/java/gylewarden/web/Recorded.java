package gylewarden.web;

import gylewarden.store.RecordFailed;
import gylewarden.web.Problem.Kind;

/** Something that is read from the record. */
interface Recorded<T> {
    T read() throws RecordFailed;

    /** @throws Refused while the record can't be read */
    static <T> T of(Recorded<T> recorded) throws Refused {
        try {
            return recorded.read();
        } catch (RecordFailed e) {
            throw new Refused(
                    Kind.SERVICE_UNAVAILABLE,
                    "The record cannot be read now; the control of the chambers goes on. "
                            + e.trouble().sentence());
        }
    }
}
