package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Gets tokens of the issuer of the tests, as a browser gets them, or a script. */
final class IssuerLogIn {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String PASSWORD = "an invented password";
  private static final String CLIENT = "kornspur";

  /** Nothing listens there; the code is read from the address. */
  private static final String BACK = "http://127.0.0.1/logged-in";

  private static final Pattern FORM = Pattern.compile("action=\"([^\"]+)\"");
  private static final Pattern CODE = Pattern.compile("[?&]code=([^&]+)");

  private final String realm;
  private final HttpClient http = HttpClient.newHttpClient();

  IssuerLogIn(String realm) {
    this.realm = realm + "/protocol/openid-connect";
  }

  /** What the issuer gave out. */
  record Given(String access, String refresh) {

    JsonNode claims() throws IOException {
      return JSON.readTree(Base64.getUrlDecoder().decode(access.split("\\.", -1)[1]));
    }

    @Override
    public String toString() {
      return "tokens";
    }
  }

  /** By a form in a browser (RFC 6749, section 4.1): the issuer says when that was. */
  Given byForm(String person) throws IOException, InterruptedException {
    HttpResponse<String> form =
        http.send(
            HttpRequest.newBuilder(
                    URI.create(
                        realm
                            + "/auth?"
                            + encoded(
                                Map.of(
                                    "client_id",
                                    CLIENT,
                                    "response_type",
                                    "code",
                                    "scope",
                                    "openid",
                                    "redirect_uri",
                                    BACK))))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(form.statusCode()).as(form.body()).isEqualTo(200);
    // the cookies are for TLS only, which a client of the library would heed
    String cookies =
        form.headers().allValues("Set-Cookie").stream()
            .map(cookie -> cookie.split(";", 2)[0])
            .collect(Collectors.joining("; "));
    HttpResponse<String> sent =
        post(
            found(FORM, form.body()).replace("&amp;", "&"),
            Map.of("username", person, "password", PASSWORD),
            cookies);
    assertThat(sent.statusCode()).as(sent.body()).isEqualTo(302);
    return given(
        Map.of(
            "grant_type",
            "authorization_code",
            "client_id",
            CLIENT,
            "redirect_uri",
            BACK,
            "code",
            found(CODE, sent.headers().firstValue("Location").orElse(""))));
  }

  /** By person and password (RFC 6749, section 4.3): this issuer does not say when that was. */
  Given byPassword(String client, String person) throws IOException, InterruptedException {
    return given(
        Map.of(
            "grant_type", "password",
            "scope", "openid",
            "client_id", client,
            "username", person,
            "password", PASSWORD));
  }

  /** Without anybody there (RFC 6749, section 6). */
  Given refreshed(Given before) throws IOException, InterruptedException {
    return given(
        Map.of(
            "grant_type", "refresh_token", "client_id", CLIENT, "refresh_token", before.refresh()));
  }

  private Given given(Map<String, String> form) throws IOException, InterruptedException {
    HttpResponse<String> answer = post(realm + "/token", form, "");
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    JsonNode tokens = JSON.readTree(answer.body());
    return new Given(tokens.path("access_token").asText(), tokens.path("refresh_token").asText());
  }

  private HttpResponse<String> post(String address, Map<String, String> form, String cookies)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(address))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(encoded(form)));
    if (!cookies.isEmpty()) {
      request.header("Cookie", cookies);
    }
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private static String encoded(Map<String, String> form) {
    return form.entrySet().stream()
        .map(
            field ->
                field.getKey() + "=" + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
        .collect(Collectors.joining("&"));
  }

  private static String found(Pattern pattern, String text) {
    Matcher matcher = pattern.matcher(text);
    assertThat(matcher.find()).as(pattern + " in " + text).isTrue();
    return matcher.group(1);
  }
}
