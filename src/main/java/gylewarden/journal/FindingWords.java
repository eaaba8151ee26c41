package gylewarden.journal;

import gylewarden.commission.Effect;
import gylewarden.commission.Finding;
import gylewarden.commission.Finding.Unseen;
import gylewarden.commission.Place;
import gylewarden.commission.Verdict;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import java.time.Duration;
import java.util.List;

/** Puts what commissioning found into words: what was seen and what it means, and what to look at first. */
public record FindingWords(Scale scale) {
    private static final String LEVEL = "set active_low of that relay the other way in the config";

    /** What was seen, and what it means. */
    public String of(Finding finding) {
        if (finding instanceof Finding.LoadsSwapped)
            return "The loads are swapped: the relay for cooling makes it warmer and the relay for heating makes it"
                    + " colder. If both loads ran while everything was released, it is not the plugs but both levels that are"
                    + " inverted.";
        if (finding instanceof Finding.LevelsInverted)
            return "Both levels are inverted: cooling and heating run while their relays are released, and stop when they"
                    + " are energised. If nothing ran while everything was released, it is the plugs that are swapped.";
        if (finding instanceof Finding.LevelInverted f)
            return "The level of the relay for " + side(f.side())
                    + " is inverted: its load runs while the relay is released" + " and stops when it is energised.";
        if (finding instanceof Finding.ActsAsOther f)
            return "The relay for " + side(f.side()) + " makes it " + (f.side() == Side.COOLING ? "warmer" : "colder")
                    + ": the load for " + side(f.side().other())
                    + " hangs on it, or its level is inverted. The other relay "
                    + (f.otherRight() ? "does what it should." : "does nothing that could be seen.");
        return effects(finding);
    }

    private String effects(Finding finding) {
        if (finding instanceof Finding.NoEffect f)
            return "The relay for " + side(f.side()) + " does nothing that could be seen: energised for "
                    + Spans.words(f.energised()) + ", and nothing got "
                    + (f.side() == Side.COOLING ? "colder" : "warmer")
                    + ".";
        if (finding instanceof Finding.NothingMoves f)
            return "Neither relay does anything that could be seen: energised for " + Spans.words(f.energised())
                    + " and more, and nothing moved.";
        if (finding instanceof Finding.AlwaysRuns f)
            return "Something " + (f.side() == Side.COOLING ? "cools" : "heats")
                    + " all the time, whatever its relay does: the load has its power from elsewhere, a contact is welded, or"
                    + " the level is inverted.";
        if (finding instanceof Finding.OwnThermostat f)
            return "The appliance's own thermostat is in the way: it cooled at first, then stopped at "
                    + scale.words(f.stopped()) + " after " + Spans.words(rounded(f.after()))
                    + ", though its relay was still energised.";
        if (finding instanceof Finding.OwnDelay f)
            return "The appliance waits about " + f.measured().toMinutes()
                    + " min after it gets power before it cools; the config says "
                    + (f.configured().isZero()
                            ? "nothing of it"
                            : f.configured().toMinutes() + " min") + ".";
        return probes(finding);
    }

    private String probes(Finding finding) {
        if (finding instanceof Finding.ProbesExchanged)
            return "The probes are exchanged: what is named the beer probe moves as air does, and what is named the air probe"
                    + " as beer does.";
        if (finding instanceof Finding.BeerProbeInAir)
            return "The beer probe moves nearly as the air does: it hangs in the air, or has no contact with the vessel.";
        if (finding instanceof Finding.ProbeDoubted f)
            return "The " + name(f.place()) + " was not believed for minutes: " + Sentences.of(f.doubt()) + ".";
        if (finding instanceof Finding.RelayFailed f)
            return "The relay for " + side(f.side()) + " could not be written. Pull the plug of its load.";
        if (finding instanceof Finding.WrongLoad f)
            return "The relay for " + side(f.side())
                    + " did not click, or did not bring on its own load and no other: so the person beside it said.";
        if (finding instanceof Finding.NotTried f)
            return Sentences.capital(side(f.side())) + " could not be tried: " + because(f.because()) + ".";
        throw new IllegalStateException("a finding without words: " + finding);
    }

    /** Where to look first, as a thing to do. */
    public String lookFirst(Finding finding) {
        if (finding instanceof Finding.LoadsSwapped)
            return "Exchange the two plugs, or the two relays in the config; then commission again.";
        if (finding instanceof Finding.LevelsInverted)
            return "Pull both plugs now. Set active_low of both relays the other way in the config; then commission again.";
        if (finding instanceof Finding.LevelInverted)
            return "Pull that load's plug now, for it runs whenever the daemon does not. Then " + LEVEL + ".";
        if (finding instanceof Finding.ActsAsOther)
            return "See which load clicks on with which relay, by the command click; then sort the plugs, or " + LEVEL
                    + ".";
        if (finding instanceof Finding.NoEffect f)
            return f.side() == Side.COOLING
                    ? "Is the appliance plugged into this relay's socket and switched on, its knob at coldest, eco off? Does it"
                            + " hum when the relay is energised? A door that is open, or a room as cold as the chamber, hides"
                            + " it too."
                    : "Is the heater plugged into this relay's own socket, and not into the other's? Does it get warm to the"
                            + " hand? A cut-out that has tripped, or a heater too weak for this vessel, looks the same.";
        if (finding instanceof Finding.NothingMoves)
            return "Does the relay board have its own supply? Do both loads have power? Are the probes inside the chamber?";
        if (finding instanceof Finding.AlwaysRuns)
            return "Pull the plug of that load now. Is it in the relay's socket, and not in the wall's? Does it stay off with the"
                    + " relay's control wire pulled? If so, " + LEVEL + ".";
        return lookAtAppliance(finding);
    }

    private String lookAtAppliance(Finding finding) {
        if (finding instanceof Finding.OwnThermostat)
            return "Turn its knob to coldest, and eco or holiday modes off, so that the relay alone decides.";
        if (finding instanceof Finding.OwnDelay f)
            return "Write own_delay = \"" + f.measured().toMinutes()
                    + "m\" in the chamber's table of the config. Does the appliance also come back by itself after a loss of"
                    + " power?";
        if (finding instanceof Finding.ProbesExchanged)
            return "Exchange beer_probe and air_probe in the config, or the probes.";
        if (finding instanceof Finding.BeerProbeInAir)
            return "Put the beer probe into a well, or under insulation taped to the vessel below the beer's surface.";
        if (finding instanceof Finding.ProbeDoubted)
            return "Look at its cable and where it sits; a probe under or beside a heater jumps as if it had fallen out.";
        if (finding instanceof Finding.RelayFailed) return "Look at the relay board and its wires.";
        if (finding instanceof Finding.WrongLoad)
            return "Find the plug that belongs to this relay, or the relay's line in the config, by the command click.";
        return "See to that, then commission again. Water at the room's temperature in the vessel is the best start.";
    }

    /** The findings of a verdict as they are kept: every reader's scale can put them into words. */
    public static List<String> kept(Verdict verdict) {
        var neutral = new FindingWords(Scale.NEUTRAL);
        return verdict.findings().stream().map(neutral::of).toList();
    }

    /** What could not be told with these probes; no fault. */
    public static String of(Unseen unseen) {
        return switch (unseen) {
            case EXCHANGED_PROBES -> "Whether the probes are exchanged can't be told, for nothing cooled.";
            case OWN_THERMOSTAT ->
                "Whether the appliance's own thermostat is in the way can't be told without an air probe: turn its knob to"
                        + " coldest.";
            case OWN_DELAY -> "Whether the appliance waits after it gets power can't be told without an air probe.";
        };
    }

    /** What a side did. */
    public String of(Side side, Effect effect) {
        return Sentences.capital(side(side)) + " moved the " + (effect.seenAt() == Place.AIR ? "air" : "beer") + " by "
                + scale.words(effect.by()) + (effect.by().value() < 0 ? " down." : " up.");
    }

    private String because(Reason reason) {
        if (reason instanceof Reason.AirBeyondLimit r)
            return "the air was beyond its limit of " + scale.words(r.limit());
        if (reason instanceof Reason.BeerBeyondLimit r)
            return "the beer was beyond its limit of " + scale.words(r.limit());
        if (reason instanceof Reason.NearFreezing r)
            return "the beer was too near to freezing, below " + scale.words(r.limit());
        if (reason instanceof Reason.RoomTooCold r)
            return "the room is too cold for the compressor, " + scale.words(r.room());
        if (reason instanceof Reason.SwitchedOff) return "everything is switched off by a person";
        return "the guard kept it released longer than it should";
    }

    private static String side(Side side) {
        return side == Side.COOLING ? "cooling" : "heating";
    }

    private static String name(Place place) {
        return place == Place.BEER ? "beer probe" : "air probe";
    }

    private static Duration rounded(Duration span) {
        return Duration.ofMinutes(Math.round(span.toSeconds() / 60.0));
    }
}
