package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.EnterpriseKind;
import org.kornspur.contract.TestKind;

/** The invented enterprises. */
final class Enterprises {
  static final String BREEDER = "ENT-BREEDER";
  static final String INSPECTION_BODY = "ENT-INSPECTION";
  static final List<String> MULTIPLIERS =
      List.of(
          "ENT-MULT-NORTH",
          "ENT-MULT-EAST",
          "ENT-MULT-SOUTH",
          "ENT-MULT-WEST",
          "ENT-MULT-RIVER",
          "ENT-MULT-HILL");
  static final List<String> CONDITIONERS = List.of("ENT-PLANT-ONE", "ENT-PLANT-TWO");
  static final List<String> LABORATORIES = List.of("ENT-LAB-ONE", "ENT-LAB-TWO");

  /** Their ids are the accreditation numbers that samplings bear. */
  static final List<String> SAMPLERS =
      List.of("INV-SAMPLER-01", "INV-SAMPLER-02", "INV-SAMPLER-03", "INV-SAMPLER-04");

  static final List<String> CUSTOMERS =
      List.of(
          "ENT-CUST-01",
          "ENT-CUST-02",
          "ENT-CUST-03",
          "ENT-CUST-04",
          "ENT-CUST-05",
          "ENT-CUST-06",
          "ENT-CUST-07",
          "ENT-CUST-08");

  private Enterprises() {}

  static void declareAll(Book book) {
    declare(book, BREEDER, "Invented Breeder", EnterpriseKind.BREEDER);
    declare(book, INSPECTION_BODY, "Invented Inspection Body", EnterpriseKind.INSPECTION_BODY);
    declareEach(book, MULTIPLIERS, "Invented Multiplier", EnterpriseKind.MULTIPLIER);
    declareEach(book, CONDITIONERS, "Invented Conditioning Plant", EnterpriseKind.CONDITIONER);
    declareEach(book, LABORATORIES, "Invented Laboratory", EnterpriseKind.LABORATORY);
    declareEach(book, CUSTOMERS, "Invented Customer", EnterpriseKind.CUSTOMER);
    declareEach(book, SAMPLERS, "Invented Sampler", EnterpriseKind.INSPECTION_BODY);
  }

  private static void declareEach(Book book, List<String> ids, String called, EnterpriseKind kind) {
    for (String id : ids) {
      String last = id.substring(id.lastIndexOf('-') + 1);
      declare(
          book,
          id,
          called + " " + last.charAt(0) + last.substring(1).toLowerCase(java.util.Locale.ROOT),
          kind);
    }
  }

  /** Accredited from before the demo begins until after it ends. */
  private static List<Accreditation> accreditations(String id, EnterpriseKind kind) {
    Predicate<TestKind> held =
        SAMPLERS.contains(id)
            ? test -> test == TestKind.SAMPLING
            : test -> kind == EnterpriseKind.LABORATORY && test != TestKind.SAMPLING;
    return Arrays.stream(TestKind.values())
        .filter(held)
        .map(test -> new Accreditation(test, LocalDate.of(2021, 1, 1), LocalDate.of(2027, 12, 31)))
        .toList();
  }

  private static void declare(Book book, String id, String name, EnterpriseKind kind) {
    book.add(
        new EnterpriseDeclared(
            Heads.head(
                "enterprise-" + id, "office-01", LocalDate.of(2022, 8, 1), "invented register"),
            id,
            name,
            kind,
            accreditations(id, kind)));
  }
}
