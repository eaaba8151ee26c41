package gylewarden.crooked.relay;

public record PinRelay(int line) implements Relay {}
