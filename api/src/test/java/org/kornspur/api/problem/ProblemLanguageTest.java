package org.kornspur.api.problem;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.processors.advice.AdviceRefusal;
import org.kornspur.processors.plan.PlanRefusal;

/** Every kind of problem of a request has its words, with exactly its arguments. */
class ProblemLanguageTest {

  @ParameterizedTest
  @EnumSource
  void everyKindHasItsTextsAndNoTextIsLeftOver(Language language) {
    Set<String> wanted = new TreeSet<>();
    sentences().forEach(kind -> wanted.add(Coded.codeOf(kind)));
    Stream.of(ProblemKind.values())
        .flatMap(kind -> Stream.of(kind.title(), kind.remedy()))
        .forEach(text -> wanted.add(text.code()));
    kinds(RequestReason.class).forEach(kind -> wanted.addAll(partsOf(kind)));
    Stream.of(Role.values()).forEach(role -> wanted.add("term.Role." + role.name()));

    assertThat(ofRequests(language).keys()).containsExactlyInAnyOrderElementsOf(wanted);
  }

  @ParameterizedTest
  @EnumSource
  void everyTextUsesTheArgumentsOfItsKind(Language language) {
    TextBundle texts = ofRequests(language);

    sentences()
        .forEach(
            kind ->
                assertThat(namesIn(texts, Coded.codeOf(kind)).collect(Collectors.toSet()))
                    .as(Coded.codeOf(kind))
                    .isEqualTo(componentsOf(kind)));
    kinds(RequestReason.class)
        .forEach(
            kind ->
                assertThat(
                        partsOf(kind).stream()
                            .flatMap(key -> namesIn(texts, key))
                            .collect(Collectors.toSet()))
                    .as(Coded.codeOf(kind))
                    .isEqualTo(componentsOf(kind)));
  }

  @ParameterizedTest
  @EnumSource
  void aProblemHasItsCodeBesideItsWords(Language language) {
    Problem problem =
        Problem.of(
            "type",
            "Release",
            new RightsProblem.OtherRole(List.of(Role.LABORATORY), List.of(Role.QUALITY)));

    ProblemView view = ProblemView.of(problem, ProblemLanguage.words(language));

    assertThat(List.of(view.value(), view.limit(), view.remedy()))
        .isEqualTo(
            switch (language) {
              case ENGLISH ->
                  List.of(
                      "'Release'",
                      "a fact that one of your roles (laboratory) brings",
                      "Have it brought by somebody who may: quality");
              case GERMAN ->
                  List.of(
                      "„Release“",
                      "eine Meldung, die eine Ihrer Rollen (Labor) einreichen darf",
                      "Von jemandem einreichen lassen, der es darf: Qualitätssicherung");
            });
    assertThat(view.code()).isEqualTo("rights-problem.other-role");
    assertThat(view.arguments().at("/allowed/0/term").asText()).isEqualTo("QUALITY");
  }

  /** Kinds that have one text each. */
  private static Stream<Class<? extends Statement>> sentences() {
    return Stream.of(RequestGiven.class, Detail.class, AdviceRefusal.class, PlanRefusal.class)
        .flatMap(ProblemLanguageTest::kinds);
  }

  private static TextBundle ofRequests(Language language) {
    return TextBundle.read(language.locale(), ProblemLanguage.class, ProblemLanguage.FILE);
  }

  private static Stream<Class<? extends Statement>> kinds(Class<?> family) {
    return family.isSealed()
        ? Arrays.stream(family.getPermittedSubclasses()).flatMap(ProblemLanguageTest::kinds)
        : Stream.of(family.asSubclass(Statement.class));
  }

  private static List<String> partsOf(Class<? extends Statement> kind) {
    return List.of(Coded.codeOf(kind) + Reason.LIMIT, Coded.codeOf(kind) + Reason.REMEDY);
  }

  private static Set<String> componentsOf(Class<?> kind) {
    return Arrays.stream(kind.getRecordComponents())
        .map(RecordComponent::getName)
        .collect(Collectors.toSet());
  }

  /** Names of arguments that a text uses; {@code fromKey} is of {@code from}. */
  private static Stream<String> namesIn(TextBundle texts, String key) {
    return texts.arguments(key).stream().map(name -> name.replaceFirst("Key$", ""));
  }
}
