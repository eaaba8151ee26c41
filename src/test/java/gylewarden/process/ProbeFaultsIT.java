package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A probe that fails in the kernel's tree, from the fault to the relay and back. */
@OfTheRealJar
class ProbeFaultsIT {
    /** docs/failures.md: doubted after 30 s without a good reading; the rest is for the last good one, tick and machine. */
    private static final Duration RELEASED_WITHIN = Duration.ofSeconds(30 + 15);

    /** Single bad readings are dropped: nothing is released much before those 30 s. */
    private static final Duration NOT_BEFORE = Duration.ofSeconds(20);

    enum Fault {
        EMPTY("it does not answer") {
            @Override
            void begin(FakeWires.Probe probe) throws Exception {
                probe.isEmpty();
            }
        },
        GARBAGE("it says what cannot be") {
            @Override
            void begin(FakeWires.Probe probe) throws Exception {
                probe.isGarbage();
            }
        },
        HANGING_BUS("its bus hangs") {
            @Override
            void begin(FakeWires.Probe probe) throws Exception {
                probe.hangs();
            }
        },
        VANISHED("it does not answer") {
            @Override
            void begin(FakeWires.Probe probe) throws Exception {
                probe.vanishes();
            }

            @Override
            void end(FakeWires.Probe probe) throws Exception {
                probe.comesBack();
            }
        };

        private final String doubt;

        Fault(String doubt) {
            this.doubt = doubt;
        }

        abstract void begin(FakeWires.Probe probe) throws Exception;

        void end(FakeWires.Probe probe) throws Exception {
            probe.says(20);
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_probe_that_fails_releases_the_relay_and_gives_it_back_when_it_is_well(Fault fault, @TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            long begun = System.nanoTime();
            fault.begin(board.beer());
            Write released = board.valve().becomes("0", RELEASED_WITHIN, daemon);
            Duration after = Duration.ofNanos(released.nanos() - begun);
            assertTrue(after.compareTo(NOT_BEFORE) > 0, "released after only " + after + "\n" + daemon.said());
            daemon.says("Probe beer not believed: " + fault.doubt + ".");
            daemon.says("Beer probe not believed: " + fault.doubt + ". Everything is off.");

            fault.end(board.beer());
            daemon.says("Probe beer believed, 20.0 °C.");
            board.valve().becomes("1", Await.LONG, daemon);
            assertEquals("0 1 0 1", board.valve().texts());
            assertEquals("0", board.belt().texts());
        }
    }

    @Test
    void a_hung_bus_holds_up_neither_the_loop_nor_the_probe_of_another_bus(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Path air = Files.writeString(folder.resolve("air"), "12.0\n");
            board.configure(board.text().replace("beer_probe =", "air_probe = \"air\"\nbeer_probe =") + """
                    [[probe]]
                    id = "air"
                    kind = "file"
                    path = "air"
                    unit = "degrees"
                    interval = "1s"
                    """);
            DaemonProcess daemon = board.runUntilCooling();
            board.beer().hangs();
            Files.writeString(air, "-5.0\n");
            // The beer's last good reading still counts and asks for cooling: only a loop that goes on, and reads
            // the air anew, can release for the air's floor.
            daemon.says("No cooling until the air is back above 1.0 °C; it was below -2.0 °C.");
            board.valve().becomes("0", Duration.ofSeconds(20), daemon);
            assertEquals(-1, daemon.out().indexOf("Probe beer not believed: its bus hangs"), daemon::said);
            daemon.says("Probe beer not believed: its bus hangs.");
        }
    }
}
