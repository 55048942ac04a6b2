package org.kornspur.api.command.act;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.SigningProblem;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.release.ActRules.Wish;

/**
 * What a person wants to sign.
 *
 * @param kind the act
 * @param reason why
 * @param meaning what the signature means, in words
 * @param seal the seal of the release sheet that the person saw
 * @param password to be given again where the person logged in with one
 * @param toCategory the lower category; for a downgrade
 * @param ground what a condemnation is founded on
 * @param corrects a condemnation that a suspension corrects
 */
public record ActRequest(
    ActKind kind,
    String reason,
    String meaning,
    String seal,
    Optional<String> password,
    Optional<Category> toCategory,
    Optional<CondemnationGround> ground,
    Optional<String> corrects) {
  private static final int LONGEST_REASON = 2000;
  private static final int SEAL_DIGITS = 64;
  private static final Pattern SEAL = Pattern.compile("[0-9a-f]{" + SEAL_DIGITS + "}");

  /** The body as it is described. */
  @Schema(name = "ActRequest", description = "What a person wants to sign")
  public record Body(
      @Schema(
              enumeration = {"RELEASE", "SUSPEND", "CONDEMN", "DOWNGRADE"},
              required = true)
          String kind,
      @Schema(description = "Why, in words that an auditor understands", required = true)
          String reason,
      @Schema(
              description = "What the signature means",
              examples = "responsibility for the release",
              required = true)
          String meaning,
      @Schema(description = "Seal of the release sheet that you read", required = true) String seal,
      @Schema(description = "Your password again, unless you come with a token") String password,
      @Schema(description = "The lower category; for DOWNGRADE") Category toCategory,
      @Schema(description = "What it is founded on; for CONDEMN") CondemnationGround ground,
      @Schema(description = "The condemnation that was a mistake; for SUSPEND of a condemned lot")
          String corrects) {}

  Wish wish() {
    return switch (kind) {
      case RELEASE -> new Wish.ToRelease();
      case SUSPEND -> new Wish.ToSuspend(corrects);
      case CONDEMN -> new Wish.ToCondemn();
      case DOWNGRADE -> new Wish.ToDowngrade(toCategory.orElseThrow());
    };
  }

  /**
   * Reads a body and says all that is wrong with it at once. Nothing of the password is ever shown.
   *
   * @throws ApiProblem if anything is wrong
   */
  public static ActRequest read(byte[] utf8) {
    return read(object(utf8));
  }

  /** The same of JSON that is read already. */
  static ActRequest read(JsonNode json) {
    return new Reader(json).request();
  }

  static JsonNode object(byte[] utf8) {
    JsonNode json;
    try {
      json = JsonText.parse(new String(utf8, StandardCharsets.UTF_8));
    } catch (JsonProcessingException notJson) {
      json = null;
    } catch (IOException unreadable) {
      throw new java.io.UncheckedIOException(unreadable);
    }
    if (json == null || !json.isObject()) {
      throw new ApiProblem(
          ProblemKind.UNREADABLE_BODY,
          Problem.of("", new Given.Bytes(utf8.length), new BodyProblem.NoObject()));
    }
    return json;
  }

  @Override
  public String toString() {
    return kind + " with seal " + seal;
  }

  /** Reads field by field. */
  private static final class Reader {
    private final JsonNode json;
    private final List<Problem> problems = new ArrayList<>();

    Reader(JsonNode json) {
      this.json = json;
    }

    ActRequest request() {
      Optional<ActKind> kind = choice("kind", ActKind.class, true);
      String reason = text("reason");
      String meaning = text("meaning");
      String seal = text("seal");
      if (!seal.isEmpty() && !SEAL.matcher(seal).matches()) {
        problems.add(Problem.of("seal", seal, new SigningProblem.NoSeal(SEAL_DIGITS)));
      }
      Optional<Category> to =
          choice("toCategory", Category.class, kind.equals(Optional.of(ActKind.DOWNGRADE)));
      Optional<CondemnationGround> ground =
          choice("ground", CondemnationGround.class, kind.equals(Optional.of(ActKind.CONDEMN)));
      Optional<String> corrects = optional("corrects");
      Optional<String> password =
          Optional.ofNullable(json.get("password"))
              .filter(JsonNode::isTextual)
              .map(JsonNode::textValue);
      if (!problems.isEmpty()) {
        throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
      }
      return new ActRequest(
          kind.orElseThrow(), reason, meaning, seal, password, to, ground, corrects);
    }

    private String text(String field) {
      Optional<String> text = optional(field);
      if (text.isEmpty()) {
        problems.add(Problem.of(field, null, new SigningProblem.NoText()));
      }
      return text.orElse("");
    }

    private Optional<String> optional(String field) {
      JsonNode value = json.get(field);
      if (value == null || !value.isTextual() || value.textValue().isBlank()) {
        return Optional.empty();
      }
      String text = value.textValue().strip();
      if (text.length() > LONGEST_REASON || text.chars().anyMatch(Character::isISOControl)) {
        problems.add(Problem.of(field, text, new SigningProblem.NotOneLine(LONGEST_REASON)));
      }
      return Optional.of(text);
    }

    private <E extends Enum<E>> Optional<E> choice(String field, Class<E> kind, boolean needed) {
      Optional<String> word = optional(field);
      if (word.isEmpty() && !needed) {
        return Optional.empty();
      }
      Optional<E> found =
          Arrays.stream(kind.getEnumConstants())
              .filter(value -> value.name().equals(word.orElse("").toUpperCase(Locale.ROOT)))
              .findFirst();
      if (found.isEmpty()) {
        problems.add(Problem.of(field, word.orElse(null), new ParameterProblem.OneOf(names(kind))));
      }
      return found;
    }

    private static <E extends Enum<E>> List<String> names(Class<E> kind) {
      return Arrays.stream(kind.getEnumConstants()).map(Enum::name).toList();
    }
  }
}
