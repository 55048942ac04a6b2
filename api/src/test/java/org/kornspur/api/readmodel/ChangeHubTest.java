package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ChangeHubTest {

  private static final class Hearer implements ChangeHub.Listener {
    private final List<String> heard = new ArrayList<>();
    private final int most;

    Hearer(int most) {
      this.most = most;
    }

    @Override
    public boolean offer(ChangeHub.Event event) {
      if (heard.size() == most) {
        return false;
      }
      heard.add(event.change().after().subject().toString());
      return true;
    }

    @Override
    public void mustReload() {
      heard.add("reload");
    }

    @Override
    public void end() {
      heard.add("end");
    }
  }

  @Test
  void aListenerHearsWhatComesAfterItWasAdded() {
    ChangeHub hub = new ChangeHub(10);
    hub.publish(0, 0, InventedChange.of("lot:before"));
    Hearer hearer = new Hearer(10);

    hub.add(hearer, Optional.empty());
    hub.publish(1, 0, InventedChange.of("lot:after"));

    assertThat(hearer.heard).containsExactly("lot:after");
  }

  @Test
  void oneWhoComesBackHearsWhatItMissedInEveryPartition() {
    ChangeHub hub = new ChangeHub(10);
    hub.publish(0, 0, InventedChange.of("lot:a"));
    hub.publish(1, 0, InventedChange.of("lot:b"));
    hub.publish(0, 1, InventedChange.of("lot:c"));
    hub.publish(1, 1, InventedChange.of("lot:d"));
    Hearer hearer = new Hearer(10);

    hub.add(hearer, TopicPositions.parse("0-0.1-0"));
    hub.publish(0, 2, InventedChange.of("lot:e"));

    assertThat(hearer.heard).containsExactly("lot:c", "lot:d", "lot:e");
  }

  @Test
  void allAreLetGoWhenTheProgramLeaves() {
    ChangeHub hub = new ChangeHub(10);
    Hearer before = new Hearer(10);
    Hearer after = new Hearer(10);
    hub.add(before, Optional.empty());

    hub.close();
    hub.add(after, Optional.empty());
    hub.publish(0, 0, InventedChange.of("lot:a"));

    assertThat(before.heard).containsExactly("end");
    assertThat(after.heard).containsExactly("end");
    assertThat(hub.listeners()).isZero();
  }

  @Test
  void theIdOfEachEventSaysHowFarEveryPartitionWasRead() {
    ChangeHub hub = new ChangeHub(10);
    List<String> ids = new ArrayList<>();
    hub.add(
        new ChangeHub.Listener() {
          @Override
          public boolean offer(ChangeHub.Event event) {
            return ids.add(event.positions().toString());
          }

          @Override
          public void mustReload() {
            ids.add("reload");
          }

          @Override
          public void end() {
            ids.add("end");
          }
        },
        Optional.empty());

    hub.publish(1, 7, InventedChange.of("lot:a"));
    hub.publish(0, 3, InventedChange.of("lot:b"));
    hub.publish(1, 8, InventedChange.of("lot:c"));

    assertThat(ids).containsExactly("1-7", "0-3.1-7", "0-3.1-8");
  }

  @Test
  void oneWhoWasAwayTooLongIsToldToReloadAndThenFollows() {
    ChangeHub hub = new ChangeHub(2);
    for (int offset = 0; offset < 4; offset++) {
      hub.publish(0, offset, InventedChange.of("lot:" + offset));
    }
    Hearer late = new Hearer(10);
    Hearer inTime = new Hearer(10);

    hub.add(late, TopicPositions.parse("0-0"));
    hub.add(inTime, TopicPositions.parse("0-1"));
    hub.publish(0, 4, InventedChange.of("lot:4"));

    assertThat(late.heard).containsExactly("reload", "lot:4");
    assertThat(inTime.heard).containsExactly("lot:2", "lot:3", "lot:4");
  }

  @Test
  void oneWhoCannotFollowIsDroppedAndTheOthersAreNot() {
    ChangeHub hub = new ChangeHub(10);
    Hearer slow = new Hearer(1);
    Hearer quick = new Hearer(10);
    hub.add(slow, Optional.empty());
    hub.add(quick, Optional.empty());

    hub.publish(0, 0, InventedChange.of("lot:a"));
    hub.publish(0, 1, InventedChange.of("lot:b"));

    assertThat(hub.listeners()).isEqualTo(1);
    assertThat(slow.heard).containsExactly("lot:a");
    assertThat(quick.heard).containsExactly("lot:a", "lot:b");
  }
}
