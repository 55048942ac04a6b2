package org.kornspur.api.security.visibility;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.visibility.CursorCipher.Use;

class CursorCipherTest {
  private static final String SECRET = "an invented secret, for tests of this class";

  private final CursorCipher cursors = new CursorCipher(SECRET);
  private final Visibility part = new CombinedVisibility(List.of());

  @Test
  void whoSeesEverythingIsToldThePlaceItself() {
    Visibility whole = Visibility.everything();

    assertThat(cursors.told(whole, Use.LIVE_STREAM, "0-17.1-4")).isEqualTo("0-17.1-4");
    assertThat(cursors.read(whole, Use.LIVE_STREAM, "0-17.1-4")).hasValue("0-17.1-4");
  }

  @Test
  void allOthersAreToldMarksOfWhichNoTwoAreAlike() {
    String mark = cursors.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String again = cursors.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String later = cursors.told(part, Use.LIVE_STREAM, "0-1234567.1-4");

    assertThat(mark).isNotEqualTo(again).hasSameSizeAs(later).matches("[A-Za-z0-9_-]+");
    assertThat(cursors.read(part, Use.LIVE_STREAM, mark)).hasValue("0-17.1-4");
    assertThat(cursors.read(part, Use.LIVE_STREAM, later)).hasValue("0-1234567.1-4");
  }

  @Test
  void everyInstanceOfASiteReadsThem() {
    String mark = cursors.told(part, Use.EVENT_PAGE, "17_a");

    assertThat(new CursorCipher(SECRET).read(part, Use.EVENT_PAGE, mark)).hasValue("17_a");
    assertThat(new CursorCipher(SECRET + "!").read(part, Use.EVENT_PAGE, mark)).isEmpty();
  }

  @Test
  void whatWasMadeUpOrAlteredOrIsOfAnotherUseIsNotRead() {
    String mark = cursors.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String altered = (mark.charAt(0) == 'A' ? "B" : "A") + mark.substring(1);

    for (String wrong : List.of("0-17.1-4", "9-0", "", "AAAA", "%", altered, "A".repeat(9000))) {
      assertThat(cursors.read(part, Use.LIVE_STREAM, wrong)).as(wrong).isEmpty();
    }
    assertThat(cursors.read(part, Use.EVENT_PAGE, mark)).isEmpty();
  }
}
