package gylewarden.app.config;

import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.control.Rules.Fitted;
import java.nio.file.Path;
import java.util.Optional;

/** Reads the control file of a simulation: one table {@code [chamber]} with the keys of a chamber that set its control. */
public final class ControlFile {
    private ControlFile() {}

    /**
     * @param fitted what the simulated chamber has; how it cools may be said in the file
     * @throws WrongFile with every mistake in it
     */
    public static Rules read(Path path, Fitted fitted) throws WrongFile {
        TomlFile file = TomlFile.read(path);
        Optional<Table> chamber = file.root().table("chamber");
        Rules rules = chamber.map(table -> rules(table, fitted))
                .orElseGet(() -> Rules.defaults().with(fitted));
        file.root().finish();
        if (!file.root().has("chamber") && file.isComplete()) file.mistake("there is no [chamber]: it holds the keys");
        file.refuseMistakes();
        return rules;
    }

    private static Rules rules(Table table, Fitted fitted) {
        CoolingBy by = table.has("cooling_by")
                ? ControlKeys.coolingBy(table)
                : fitted.cooling().orElse(CoolingBy.COMPRESSOR);
        table.know("cooling_by");
        Fitted said = new Fitted(fitted.cooling().map(cooling -> by), fitted.heating(), fitted.airProbe());
        Rules rules = ControlKeys.read(table, said, by);
        table.finish();
        return rules;
    }
}
