package org.kornspur.api.border;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.api.access.Sight;
import org.kornspur.api.border.Bookmarks.Use;

class BookmarksTest {
  private static final String SECRET = "an invented secret, for tests of this class";

  private final Bookmarks bookmarks = new Bookmarks(SECRET);
  private final Sight part = new JoinedSight(List.of());

  @Test
  void whoSeesEverythingIsToldThePlaceItself() {
    Sight whole = Sight.everything();

    assertThat(bookmarks.told(whole, Use.LIVE_STREAM, "0-17.1-4")).isEqualTo("0-17.1-4");
    assertThat(bookmarks.read(whole, Use.LIVE_STREAM, "0-17.1-4")).hasValue("0-17.1-4");
  }

  @Test
  void allOthersAreToldMarksOfWhichNoTwoAreAlike() {
    String mark = bookmarks.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String again = bookmarks.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String later = bookmarks.told(part, Use.LIVE_STREAM, "0-1234567.1-4");

    assertThat(mark).isNotEqualTo(again).hasSameSizeAs(later).matches("[A-Za-z0-9_-]+");
    assertThat(bookmarks.read(part, Use.LIVE_STREAM, mark)).hasValue("0-17.1-4");
    assertThat(bookmarks.read(part, Use.LIVE_STREAM, later)).hasValue("0-1234567.1-4");
  }

  @Test
  void everyInstanceOfASiteReadsThem() {
    String mark = bookmarks.told(part, Use.EVENT_PAGE, "17_a");

    assertThat(new Bookmarks(SECRET).read(part, Use.EVENT_PAGE, mark)).hasValue("17_a");
    assertThat(new Bookmarks(SECRET + "!").read(part, Use.EVENT_PAGE, mark)).isEmpty();
  }

  @Test
  void whatWasMadeUpOrAlteredOrIsOfAnotherUseIsNotRead() {
    String mark = bookmarks.told(part, Use.LIVE_STREAM, "0-17.1-4");
    String altered = (mark.charAt(0) == 'A' ? "B" : "A") + mark.substring(1);

    for (String wrong : List.of("0-17.1-4", "9-0", "", "AAAA", "%", altered, "A".repeat(9000))) {
      assertThat(bookmarks.read(part, Use.LIVE_STREAM, wrong)).as(wrong).isEmpty();
    }
    assertThat(bookmarks.read(part, Use.EVENT_PAGE, mark)).isEmpty();
  }
}
