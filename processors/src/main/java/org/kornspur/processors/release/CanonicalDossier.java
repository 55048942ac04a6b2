package org.kornspur.processors.release;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Release;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * The canonical text of a dossier: what a seal is the hash of. This page is the definition. One
 * class because the whole definition must stand on one page.
 *
 * <p>Lines end with a line feed, the last one too. Fields are separated by a tab; in a field,
 * backslash, tab, line feed and carriage return are written {@code \\ \t \n \r}. An absent value is
 * an empty field. Lists of fact ids are separated by commas. Numbers that are not whole have
 * exactly six decimals, rounded half to even, with a point; so the text does not hang on how a
 * platform prints binary fractions. The lines, in this order, those of one kind sorted by their
 * UTF-16 code units:
 *
 * <pre>
 * kornspur-dossier  2
 * subject           kind:id
 * standing          FIT | NOT_FIT | EVIDENCE_OWED
 * material          hybrid  seed  kind  category  year of harvest  rulebook     (none: no fields)
 * rulebook          id  edition                                                 (none: no fields)
 * fact              id  fingerprint  id of the fact that superseded it          each fact
 * parent            kind:id  hybrid  seed  kind  category  year  rulebook  holder
 * parent-measure    kind:id  quantity  mean  standard error  fact
 * parent-verdict    kind:id  the fields of a verdict
 * parent-control    kind:id  fact                                               post-control
 * scheme            hybrid  fact
 * neighbour         kind:id  metres  hectares  kind  first day  last day  fact
 * inherited         gate  aspect  weight  origin  facts
 * verdict           gate  aspect  state  value  unit  margin  interval from  to
 *                   limit: quantity  sense  value  unit  rulebook  edition  section
 *                   evidence  facts  findings  advice
 * </pre>
 *
 * <p>Evidence, findings and advice are statements, separated by a space. A statement is its code
 * and, in brackets, its arguments as {@code name=value}, separated by a semicolon; a count is its
 * digits, an amount its number and unit, a list stands in square brackets, words in quotation
 * marks.
 *
 * <p>Version 1 is the same, but that it has no findings and advice, and the evidence in the English
 * of {@link VersionOneWords}. A proposal that was signed over it still counts.
 *
 * <p>All facts of the subject are in it but releases and refused acts: the second person must be
 * able to sign what the first signed. Suspensions, condemnations and downgrades are in it, so that
 * nobody releases over one that he did not see. A fact's fingerprint is {@link Fingerprint}. The
 * words that a person reads are not in it: they are made of these values for each reader.
 */
public final class CanonicalDossier {
  private static final int DECIMALS = 6;

  private final List<String> lines = new ArrayList<>();
  private final boolean isVersionOne;

  private CanonicalDossier(boolean isVersionOne) {
    this.isVersionOne = isVersionOne;
  }

  public static String text(Dossier dossier, Assessment assessment) {
    return new CanonicalDossier(false).of(dossier, assessment);
  }

  /** The text as version 1 had it, for seals of that version. */
  public static String versionOne(Dossier dossier, Assessment assessment) {
    return new CanonicalDossier(true).of(dossier, assessment);
  }

  private String of(Dossier dossier, Assessment assessment) {
    head(dossier, assessment);
    section(dossier.entries().stream().filter(CanonicalDossier::isSealed).map(fact()));
    parents(dossier);
    section(
        reports(dossier, Report.FromHybrid.class)
            .flatMap(report -> report.schemes().stream())
            .map(scheme -> line("scheme", scheme.hybridId(), scheme.factId())));
    section(dossier.neighbourReports().stream().map(CanonicalDossier::neighbour));
    section(assessment.inherited().stream().map(CanonicalDossier::inherited));
    section(assessment.verdicts().stream().map(verdict -> line("verdict", verdict(verdict))));
    return String.join("", lines);
  }

  /** Whether a fact is part of what is sealed. */
  static boolean isSealed(Entry entry) {
    return !(entry.fact() instanceof Release) && !(entry.fact() instanceof RefusedAct);
  }

  private void head(Dossier dossier, Assessment assessment) {
    lines.add(line("kornspur-dossier", isVersionOne ? "1" : "2"));
    lines.add(line("subject", dossier.subject().toString()));
    lines.add(line("standing", assessment.standing().name()));
    lines.add(
        assessment
            .material()
            .map(material -> line("material", material(material)))
            .orElse("material\n"));
    lines.add(
        assessment
            .rulebook()
            .map(book -> line("rulebook", book.id(), book.edition()))
            .orElse("rulebook\n"));
  }

  private void section(Stream<String> section) {
    List<String> sorted = new ArrayList<>(section.toList());
    Collections.sort(sorted);
    lines.addAll(sorted);
  }

  private static java.util.function.Function<Entry, String> fact() {
    return entry ->
        line(
            "fact",
            entry.header().getFactId(),
            Fingerprint.of(entry.fact()),
            entry.superseded().map(Entry.Superseded::byFactId).orElse(""));
  }

  private void parents(Dossier dossier) {
    List<Report.FromParent> parents = dossier.parents();
    section(
        parents.stream()
            .map(
                parent ->
                    line(
                        "parent",
                        Stream.of(
                                List.of(parent.parent().toString()),
                                parent
                                    .material()
                                    .map(CanonicalDossier::material)
                                    .orElse(Collections.nCopies(6, "")),
                                List.of(parent.holder().orElse("")))
                            .flatMap(List::stream)
                            .toList())));
    section(
        parents.stream()
            .flatMap(
                parent ->
                    Stream.of(
                            measure(
                                parent,
                                "thousandKernelWeightG",
                                parent.measures().thousandKernelWeightG()),
                            measure(
                                parent,
                                "germinationPercent",
                                parent.measures().germinationPercent()))
                        .flatMap(Optional::stream)));
    section(
        parents.stream()
            .flatMap(
                parent ->
                    parent.seedVerdicts().stream()
                        .map(
                            verdict ->
                                line(
                                    "parent-verdict",
                                    Stream.concat(
                                            Stream.of(parent.parent().toString()),
                                            verdict(verdict).stream())
                                        .toList()))));
    section(
        parents.stream()
            .flatMap(
                parent ->
                    parent.postControls().stream()
                        .map(fact -> line("parent-control", parent.parent().toString(), fact))));
  }

  private static Optional<String> measure(
      Report.FromParent parent, String quantity, Optional<SeedMeasures.Mean> estimate) {
    return estimate.map(
        found ->
            line(
                "parent-measure",
                Stream.of(
                        Stream.of(
                            parent.parent().toString(),
                            quantity,
                            number(found.mean()),
                            number(found.standardError()),
                            found.factId()),
                        found.each().stream()
                            .flatMap(test -> Stream.of(test.factId(), number(test.mean()))),
                        found.inDoubt() ? Stream.of("in doubt") : Stream.<String>empty())
                    .flatMap(fields -> fields)
                    .toList()));
  }

  private static String neighbour(Report.Neighbour neighbour) {
    return line(
        "neighbour",
        neighbour.source().toString(),
        number(neighbour.distanceM()),
        number(neighbour.areaHa()),
        neighbour.sourceKind().map(Enum::name).orElse(""),
        neighbour.sheddingFrom().map(Object::toString).orElse(""),
        neighbour.sheddingTo().map(Object::toString).orElse(""),
        neighbour.factId());
  }

  private static String inherited(InheritedFinding trouble) {
    return line(
        "inherited",
        trouble.gate().name(),
        trouble.aspect(),
        trouble.weight().name(),
        trouble.origin().toString(),
        facts(trouble.factIds()));
  }

  private static List<String> material(Material material) {
    return List.of(
        material.hybridId(),
        material.seedId(),
        material.kind().name(),
        material.category().name(),
        Integer.toString(material.cropYear()),
        material.rulebookId());
  }

  private List<String> verdict(Verdict verdict) {
    List<String> fields = new ArrayList<>();
    fields.add(verdict.gate().name());
    fields.add(verdict.aspect());
    fields.add(SealedState.of(verdict).name());
    fields.addAll(
        SealedVerdicts.measured(verdict)
            .map(CanonicalDossier::measured)
            .orElse(Collections.nCopies(5, "")));
    fields.addAll(
        verdict
            .limit()
            .map(
                limit ->
                    limit(
                        limit,
                        isVersionOne ? VersionOneWords.section(limit, verdict) : limit.section()))
            .orElse(Collections.nCopies(7, "")));
    fields.add(verdict instanceof Verdict.Owed owed ? evidence(owed) : "");
    fields.add(facts(verdict.factIds()));
    if (!isVersionOne) {
      fields.add(CanonicalStatement.all(verdict.findings()));
      fields.add(CanonicalStatement.all(verdict.advice()));
    }
    return fields;
  }

  private String evidence(Verdict.Owed verdict) {
    return isVersionOne
        ? VersionOneWords.owed(verdict)
        : CanonicalStatement.all(verdict.evidence());
  }

  private static List<String> measured(Measured measured) {
    return List.of(
        number(measured.value()),
        measured.unit(),
        number(measured.margin()),
        measured.interval().map(interval -> number(interval.lower())).orElse(""),
        measured.interval().map(interval -> number(interval.upper())).orElse(""));
  }

  private static List<String> limit(Limit limit, String section) {
    return List.of(
        limit.quantity().name(),
        limit.sense().name(),
        number(limit.value()),
        limit.unit(),
        limit.rulebookId(),
        limit.edition(),
        section);
  }

  private static <T extends Report> Stream<T> reports(Dossier dossier, Class<T> type) {
    return dossier.reports().stream().filter(type::isInstance).map(type::cast);
  }

  private static String facts(List<String> ids) {
    return String.join(",", ids.stream().sorted().toList());
  }

  static String number(double number) {
    return Double.isFinite(number)
        ? new BigDecimal(number).setScale(DECIMALS, RoundingMode.HALF_EVEN).toPlainString()
        : Double.toString(number);
  }

  private static String line(String kind, String... fields) {
    return line(kind, List.of(fields));
  }

  private static String line(String kind, List<String> fields) {
    StringBuilder line = new StringBuilder(kind);
    fields.forEach(field -> line.append('\t').append(escaped(field)));
    return line.append('\n').toString();
  }

  private static String escaped(String field) {
    return field
        .replace("\\", "\\\\")
        .replace("\t", "\\t")
        .replace("\n", "\\n")
        .replace("\r", "\\r");
  }
}
