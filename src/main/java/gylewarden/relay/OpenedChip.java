package gylewarden.relay;

import com.pi4j.library.gpiod.internal.GpioChip;
import com.pi4j.library.gpiod.internal.GpioDContext;
import java.lang.reflect.Field;
import java.util.Optional;

/**
 * Asks the GPIO library which chip it has taken. It keeps that to itself, so a private field is read: without it a wrong
 * chip would be noticed only by the load that it switches. If the field goes away in a later version nothing is known,
 * and a config that names a chip is refused.
 */
final class OpenedChip {
    private OpenedChip() {}

    static Optional<String> label() {
        return field(GpioDContext.getInstance())
                .filter(GpioChip.class::isInstance)
                .map(GpioChip.class::cast)
                .map(GpioChip::getLabel);
    }

    static Optional<Object> field(GpioDContext context) {
        try {
            Field chip = GpioDContext.class.getDeclaredField("gpioChip");
            chip.setAccessible(true);
            return Optional.ofNullable(chip.get(context));
        } catch (ReflectiveOperationException e) {
            return Optional.empty();
        }
    }
}
