import { Accordion, Field, makeStyles, mergeClasses, SearchBox, tokens } from "@fluentui/react-components";
import { useMemo, useState } from "react";
import { pane } from "../../words/pane";
import { useScreenStyles } from "../styles";
import { FunctionEntry } from "./function-entry";
import { reference, search } from "./reference";

const words = pane.functions;

const useStyles = makeStyles({
  search: { marginTop: tokens.spacingVerticalM },
  box: { width: "100%", maxWidth: "none" },
  found: { marginTop: tokens.spacingVerticalS },
});

/** The reference of all worksheet functions, made from the metadata that Excel itself reads. */
export default function Functions() {
  const styles = useStyles();
  const shared = useScreenStyles();
  const [written, setWritten] = useState("");
  const topics = useMemo(() => search(reference, written), [written]);
  const count = topics.reduce((sum, { functions }) => sum + functions.length, 0);

  return (
    <section className={shared.screen}>
      <h2 className={shared.heading}>{words.title}</h2>
      <Field label={words.search} className={styles.search}>
        <SearchBox className={styles.box} placeholder={words.searchHint} value={written} onChange={(_event, { value }) => setWritten(value)} />
      </Field>
      <p className={mergeClasses(shared.text, shared.quiet, styles.found)} role="status">
        {count === 0 ? words.noneFound(written) : words.found(count)}
      </p>
      <Accordion multiple collapsible>
        {topics.map(({ topic, title, functions }) => (
          <div key={topic}>
            <h3 className={shared.subheading}>{title}</h3>
            {functions.map((entry) => (
              <FunctionEntry key={entry.name} entry={entry} />
            ))}
          </div>
        ))}
      </Accordion>
    </section>
  );
}
