package org.kornspur.api.security.login;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import jakarta.ws.rs.core.MediaType;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Source: RFC 7578, and RFC 2046, section 5.1.1, for what parts the parts. */
class MultipartFormTest {
  private static final MediaType TYPE =
      new MediaType("multipart", "form-data", Map.of("boundary", "AaB03x"));

  private static final String FORM =
      "--AaB03x\r\n"
          + "Content-Disposition: form-data; name=\"csrfToken\"\r\n\r\n"
          + "tökén\r\n"
          + "--AaB03x\r\n"
          + "content-disposition: form-data; name=\"file\"; filename=\"C:\\season\\Ernte ü.csv\"\r\n"
          + "Content-Type: text/csv\r\n\r\n"
          + "a;b\r\n--AaB03\r\n\u0000\u00ff\r\n"
          + "--AaB03x--\r\n";

  @Test
  void fieldsAndFilesAreReadToTheByte() {
    MultipartForm form = MultipartForm.of(TYPE, FORM.getBytes(UTF_8));

    assertThat(form.text("csrfToken")).contains("tökén");
    assertThat(form.text("file")).isEmpty();
    assertThat(form.file("csrfToken")).isEmpty();
    MultipartForm.SentFile file = form.file("file").orElseThrow();
    assertThat(file.name()).isEqualTo("Ernte ü.csv");
    assertThat(file.content()).isEqualTo("a;b\r\n--AaB03\r\n\u0000\u00ff".getBytes(UTF_8));
  }

  @Test
  void aFileThatWasNotChosenIsNone() {
    String empty =
        "--AaB03x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"\"\r\n\r\n\r\n--AaB03x--";

    assertThat(MultipartForm.of(TYPE, empty.getBytes(UTF_8)).file("file")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "--AaB03x",
        "--AaB03x--",
        "--AaB03x\r\nContent-Disposition: form-data; name=\"file\"\r\n\r\nno end",
        "--AaB03x\r\nno head at all\r\n--AaB03x--",
        "--other\r\nContent-Disposition: form-data; name=\"file\"\r\n\r\nx\r\n--other--"
      })
  void whatIsNoPartIsPassedOver(String body) {
    MultipartForm form = MultipartForm.of(TYPE, body.getBytes(ISO_8859_1));

    assertThat(form.text("file")).isEmpty();
    assertThat(form.file("file")).isEmpty();
  }

  @Test
  void withoutABoundaryThereIsNothing() {
    assertThat(
            MultipartForm.of(MediaType.MULTIPART_FORM_DATA_TYPE, FORM.getBytes(UTF_8)).file("file"))
        .isEmpty();
  }
}
