package gylewarden.commission;

import gylewarden.units.Kelvins;

/**
 * What a side did.
 *
 * @param by how far it moved the probe; negative is colder
 * @param seenAt the probe that showed it best
 */
public record Effect(Kelvins by, Place seenAt) {
    boolean cools() {
        return by.value() < 0;
    }
}
