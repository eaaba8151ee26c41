package gylewarden.control;

/** Why a probe is not believed. */
public enum Doubt {
    /** The daemon has just started and three good readings have not come yet. */
    NOT_YET_READ,
    /** The probe does not answer. */
    SILENT,
    /** Its frames arrive damaged. */
    BAD_CHECKSUM,
    /** It says what it says after power-on, 85 °C. */
    POWER_ON_VALUE,
    /** It says what no probe can measure. */
    IMPOSSIBLE,
    /** No attempt to read it has ended for too long: the bus hangs. */
    STALE,
    /** It moved faster than this vessel can: fallen out? */
    TOO_FAST,
    /** It jumped, and since then it says what the air says. */
    FOLLOWS_AIR,
    /** It says the very same number although the relay has long been energised. */
    DOES_NOT_ANSWER
}
