package org.kornspur.api.text;

import java.util.Arrays;
import java.util.List;
import org.apache.avro.Schema;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.TableWords;

/** What people of one language call the kinds of facts, their fields and the choices in them. */
public final class TableTexts implements TableWords {
  private final FieldLabels labels;
  private final DomainTerms terms;
  private final PageTexts texts;

  private TableTexts(Language language) {
    labels = FieldLabels.in(language);
    terms = DomainTerms.in(language);
    texts = PageTexts.in(language, "files");
  }

  public static TableTexts in(Language language) {
    return new TableTexts(language);
  }

  /** The words of all languages: a table may come from anywhere. */
  public static List<TableWords> all() {
    return Arrays.stream(Language.values()).<TableWords>map(TableTexts::in).toList();
  }

  @Override
  public String kind(FactType type) {
    return terms.fact(type);
  }

  @Override
  public String field(Schema record, String field) {
    return labels.of(record, field);
  }

  @Override
  public String choice(String kind, String constant) {
    return terms.choice(kind, constant);
  }

  @Override
  public String helpSheet() {
    return texts.of("helpSheet");
  }

  @Override
  public String reasonColumn() {
    return texts.of("reasonColumn");
  }

  @Override
  public String exampleMark() {
    return texts.of("exampleMark");
  }
}
