package org.kornspur.api.web;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.SeedMaterial;

/** Draws a part of the pedigree, with what each crop, lot and customer shows. */
record PedigreeNodes(
    VisibleData data,
    StandingHeadlines headlines,
    PageTexts texts,
    LocalFormat form,
    DomainTerms terms) {
  private static final int LONGEST_TITLE = 18;

  PedigreeDrawing draw(PedigreeCut cut, Subject start) {
    Map<Subject, Integer> years = new HashMap<>();
    cut.nodes().forEach(subject -> year(subject).ifPresent(year -> years.put(subject, year)));
    int last = years.values().stream().mapToInt(Integer::intValue).max().orElse(0);
    Map<Subject, PedigreeDrawing.Face> faces = new HashMap<>();
    Map<Integer, String> names = new HashMap<>();
    for (Subject subject : cut.nodes()) {
      boolean isCustomer = subject.kind() == Subject.Kind.ENTERPRISE;
      int column = isCustomer ? last + 1 : years.getOrDefault(subject, 0);
      names.put(
          column,
          isCustomer
              ? texts.of("customers")
              : column == 0 ? texts.of("yearUnknown") : String.valueOf(column));
      faces.put(subject, face(subject, cut, column));
    }
    return PedigreeLayout.draw(cut, start, faces, names, form::kg);
  }

  private Optional<Integer> year(Subject subject) {
    return data.row(subject).flatMap(StandingIndexRow::material).map(SeedMaterial::getCropYear);
  }

  private PedigreeDrawing.Face face(Subject subject, PedigreeCut cut, int column) {
    String id = subject.id();
    String title = id.length() > LONGEST_TITLE ? id.substring(0, LONGEST_TITLE - 1) + "…" : id;
    String before = more(cut.hiddenBefore().get(subject));
    String after = more(cut.hiddenAfter().get(subject));
    String href = Addresses.pageOf(subject);
    if (subject.kind() == Subject.Kind.ENTERPRISE) {
      String customer = texts.of("customer");
      return new PedigreeDrawing.Face(
          href, "CUSTOMER", title, customer, before, after, customer + " " + id, column);
    }
    Optional<StandingIndexRow> row = data.row(subject);
    return new PedigreeDrawing.Face(
        href,
        row.map(one -> one.state().name()).orElse("NONE"),
        title,
        row.map(this::second).orElse(""),
        before,
        after,
        headlines.name(subject) + row.map(one -> ", " + terms.state(one.state())).orElse(""),
        column);
  }

  private String second(StandingIndexRow row) {
    String seed = row.material().map(SeedMaterial::getSeedId).orElse("");
    String shown = seed.length() > 9 ? seed.substring(0, 8) + "…" : seed;
    return shown.isEmpty() ? terms.state(row.state()) : shown + " · " + terms.state(row.state());
  }

  private String more(Integer hidden) {
    return hidden == null ? "" : texts.of("more", form.count(hidden));
  }
}
