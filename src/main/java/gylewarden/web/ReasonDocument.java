package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.journal.Sentences;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;

/** Why the relays are as they are: its kind, its values, its sentence. */
final class ReasonDocument {
    private final ChamberStatus status;
    private final ObjectNode document = Json.object();

    private ReasonDocument(ChamberStatus status) {
        this.status = status;
    }

    static ObjectNode of(ChamberStatus status, Scale scale) {
        var writing = new ReasonDocument(status);
        Reason reason = status.decision().reason();
        writing.document.put("kind", Words.camel(reason.getClass().getSimpleName()));
        writing.values(reason);
        writing.document.put("sentence", new Sentences(scale).of(status));
        return writing.document;
    }

    private void values(Reason reason) {
        if (reason instanceof Reason.Driving r) side(r.side());
        if (reason instanceof Reason.NotFitted r) side(r.side());
        if (reason instanceof Reason.Commissioning r) r.tried().ifPresent(this::side);
        if (reason instanceof Reason.NotBelieved r) doubt(r.doubt());
        if (reason instanceof Reason.RepeatingDuty r) document.put("duty", r.duty());
        if (reason instanceof Reason.OtherSideNotReleased r) side(r.stuck());
        temperatures(reason);
        deadlines(reason);
    }

    private void temperatures(Reason reason) {
        if (reason instanceof Reason.CrashingSlowly r) celsius("setpointCelsius", r.setpoint());
        if (reason instanceof Reason.HoldingAir r) {
            celsius("airCelsius", r.air());
            doubt(r.doubt());
        }
        if (reason instanceof Reason.KeepingAirFromCold r) {
            celsius("airCelsius", r.air());
            doubt(r.doubt());
        }
        if (reason instanceof Reason.NearFreezing r) celsius("limitCelsius", r.limit());
        if (reason instanceof Reason.BeerBeyondLimit r) {
            side(r.stopped());
            celsius("limitCelsius", r.limit());
        }
        if (reason instanceof Reason.AirBeyondLimit r) {
            side(r.stopped());
            celsius("limitCelsius", r.limit());
            celsius("backCelsius", r.back());
        }
        if (reason instanceof Reason.RoomTooCold r) celsius("roomCelsius", r.room());
    }

    private void deadlines(Reason reason) {
        if (reason instanceof Reason.Paused r) until(r.until());
        if (reason instanceof Reason.BackingOff r) until(r.until());
        if (reason instanceof Reason.MeasuringEffect r) until(r.side(), r.until());
        if (reason instanceof Reason.CoolingWithoutEffect r) until(r.nextTrial());
        if (reason instanceof Reason.NotFighting r) until(r.waits(), r.until());
        if (reason instanceof Reason.GentleCrash r) until(r.until());
        if (reason instanceof Reason.MustStayOff r) until(r.side(), r.until());
        if (reason instanceof Reason.FinishingMinimumRun r) until(r.side(), r.until());
        if (reason instanceof Reason.ChangingOver r) until(r.to(), r.until());
        if (reason instanceof Reason.EnoughStarts r) until(r.until());
        if (reason instanceof Reason.Defrosting r) until(r.until());
        if (reason instanceof Reason.AfterAnotherCompressor r) until(r.until());
        if (reason instanceof Reason.HeatingDutyUsed r) until(r.until());
    }

    private void side(Side side) {
        document.put("side", Words.camel(side));
    }

    private void doubt(Doubt doubt) {
        document.put("doubt", Words.camel(doubt));
    }

    private void celsius(String name, Temperature temperature) {
        document.put(name, Figures.celsius(temperature));
    }

    private void until(Side side, Uptime moment) {
        side(side);
        until(moment);
    }

    private void until(Uptime moment) {
        document.put("until", Times.text(status.dated(moment)));
    }
}
