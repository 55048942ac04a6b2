package org.kornspur.api.text;

import io.quarkus.qute.EngineBuilder;
import io.quarkus.qute.EvalContext;
import io.quarkus.qute.EvaluatedParams;
import io.quarkus.qute.NamespaceResolver;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.event.Observes;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ExecutionException;

/** Gives templates their texts: {@code {lot:title}} is the text {@code title} of {@code lot}. */
public final class TextResolver {
  /** All that templates name. */
  public static final List<String> NAMES =
      List.of(
          "audit",
          "laboratory",
          "book",
          "desk",
          "field",
          "files",
          "frame",
          "help",
          "lot",
          "map",
          "notifications",
          "paper",
          "people",
          "plan",
          "quarantine",
          "record",
          "release",
          "search",
          "seasons",
          "sign",
          "site",
          "standings",
          "trace");

  void addTo(@Observes EngineBuilder engine) {
    for (String name : NAMES) {
      engine.addNamespaceResolver(
          NamespaceResolver.builder(name).resolveAsync(asked -> text(name, asked)).build());
    }
  }

  private static CompletionStage<Object> text(String name, EvalContext asked) {
    Locale locale = (Locale) asked.getAttribute(TemplateInstance.LOCALE);
    PageTexts texts = PageTexts.in(Language.of(locale.getLanguage()).orElseThrow(), name);
    EvaluatedParams arguments = EvaluatedParams.evaluate(asked);
    return arguments.stage.thenApply(
        done -> texts.of(asked.getName(), results(arguments, asked.getParams().size())));
  }

  private static Object[] results(EvaluatedParams arguments, int count) {
    Object[] results = new Object[count];
    try {
      for (int at = 0; at < count; at++) {
        results[at] = arguments.getResult(at);
      }
    } catch (InterruptedException | ExecutionException unread) {
      throw new IllegalStateException("An argument of a text could not be read", unread);
    }
    return results;
  }
}
