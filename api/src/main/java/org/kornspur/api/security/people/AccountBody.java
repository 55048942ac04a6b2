package org.kornspur.api.security.people;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;
import org.kornspur.api.problem.AccountProblem;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.intake.IdRule;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/**
 * A JSON object read field by field; says all that is wrong at once, and never shows a password.
 */
public final class AccountBody {
  private static final int LONGEST_NAME = 100;

  /** No colon, which parts person and password in a request (RFC 7617). */
  private static final Pattern PERSON_ID =
      Pattern.compile("[A-Za-z0-9](?:[A-Za-z0-9._-]{0,62}[A-Za-z0-9])?");

  private final JsonNode root;
  private final List<Problem> problems = new ArrayList<>();

  private AccountBody(JsonNode root) {
    this.root = root;
  }

  /**
   * Reads a body.
   *
   * @throws ApiProblem if it is no JSON object; its text is not repeated, since it may hold a
   *     password
   */
  public static AccountBody read(ObjectMapper json, byte[] bytes) throws IOException {
    JsonNode root;
    try {
      root = json.reader(DeserializationFeature.FAIL_ON_TRAILING_TOKENS).readTree(bytes);
    } catch (JsonProcessingException notJson) {
      root = null;
    }
    if (root == null || !root.isObject()) {
      throw new ApiProblem(
          ProblemKind.UNREADABLE_BODY,
          Problem.of("", new Given.Bytes(bytes.length), new BodyProblem.NoObject()));
    }
    return new AccountBody(root);
  }

  /** A password; of what is wrong with it only its length is told. */
  public String password(String field, int least, int most) {
    JsonNode value = root.get(field);
    if (value == null || !value.isTextual()) {
      note(field, null, new AccountProblem.NoText());
      return "";
    }
    int length = value.textValue().length();
    if (length < least || length > most) {
      note(
          field,
          new RequestGiven.Characters(length),
          new AccountProblem.PasswordLength(least, most));
    }
    return value.textValue();
  }

  public String text(String field) {
    JsonNode value = root.get(field);
    if (value == null || !value.isTextual() || value.textValue().isBlank()) {
      note(field, value == null ? null : value.asText(), new AccountProblem.NoText());
      return "";
    }
    if (value.textValue().length() > LONGEST_NAME
        || value.textValue().chars().anyMatch(Character::isISOControl)) {
      note(field, value.textValue(), new AccountProblem.NameTooLong(LONGEST_NAME));
    }
    return value.textValue().strip();
  }

  public String personId(String field) {
    String id = text(field);
    if (!id.isEmpty() && !PERSON_ID.matcher(id).matches()) {
      note(field, id, new AccountProblem.NoPersonId());
    }
    return id;
  }

  public Optional<String> optionalId(String field) {
    JsonNode value = root.get(field);
    if (value == null || value.isNull()) {
      return Optional.empty();
    }
    String id = text(field);
    if (!id.isEmpty() && !IdRule.isId(id)) {
      note(field, id, new AccountProblem.NoEnterpriseId());
    }
    return Optional.of(id);
  }

  public Set<Role> roles(String field) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    JsonNode value = root.get(field);
    if (value == null || !value.isArray() || value.isEmpty()) {
      note(field, null, new AccountProblem.NoRole(allRoles()));
      return roles;
    }
    StreamSupport.stream(value.spliterator(), false)
        .map(JsonNode::asText)
        .forEach(
            word -> {
              try {
                roles.add(Role.valueOf(word.toUpperCase(Locale.ROOT)));
              } catch (IllegalArgumentException unknown) {
                note(field, word, new AccountProblem.UnknownRole(allRoles()));
              }
            });
    return roles;
  }

  /**
   * To be called when all are read.
   *
   * @throws ApiProblem if any is wrong
   */
  public void check() {
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
  }

  private static List<String> allRoles() {
    return Arrays.stream(Role.values()).map(Role::name).toList();
  }

  public void note(String field, Object value, AccountProblem reason) {
    problems.add(Problem.of(field, value, reason));
  }
}
