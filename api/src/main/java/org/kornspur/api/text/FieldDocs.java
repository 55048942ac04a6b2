package org.kornspur.api.text;

import org.apache.avro.Schema;

/**
 * What the contract says of its types and fields, to who fills them in. There nothing is null: what
 * the contract calls so is left empty.
 *
 * @param leftEmpty what is said in place of null, in the language
 */
public record FieldDocs(Language language, String leftEmpty) {
  /** Of a type of fact. */
  public String of(Schema type) {
    return written(type.getDoc());
  }

  /** Of a field; empty where its name says all. */
  public String of(Schema.Field field) {
    return written(field.doc());
  }

  private String written(String doc) {
    return doc == null
        ? ""
        : StatementTexts.in(language)
            .citation(doc)
            .replaceAll("\\bnull\\b", leftEmpty)
            .replaceAll(
                "\\bNull\\b", Character.toUpperCase(leftEmpty.charAt(0)) + leftEmpty.substring(1));
  }
}
