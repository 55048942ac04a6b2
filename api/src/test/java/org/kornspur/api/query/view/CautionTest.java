package org.kornspur.api.query.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.api.query.view.Caution.About;
import org.kornspur.api.query.view.Caution.Treatment;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

class CautionTest {

  @Test
  void theAuthorityDecidesOverEveryCropAndLot() {
    assertThat(about(standing("crop:C"), new Treatment.None())).containsExactly(About.AUTHORITY);
    assertThat(about(standing("lot:L"), new Treatment.None()))
        .containsExactly(About.AUTHORITY, About.SAMPLING_AND_TESTING);
  }

  @Test
  void ergotIsNamedUnlessItWasLookedForAndNoneWasFound() {
    assertThat(about(standing("lot:L", ergot(VerdictState.MET, 0.0)), new Treatment.None()))
        .doesNotContain(About.ERGOT);
    assertThat(about(standing("lot:L", ergot(VerdictState.MET, 1.0)), new Treatment.None()))
        .contains(About.ERGOT);
    assertThat(about(standing("lot:L", ergot(VerdictState.NOT_MET, 9.0)), new Treatment.None()))
        .contains(About.ERGOT);
    assertThat(about(standing("lot:L", ergot(VerdictState.OWED, null)), new Treatment.None()))
        .contains(About.ERGOT);
  }

  @Test
  void treatedSeedIsNeverFoodOrFeedAndWhatIsNotKnownCountsAsTreated() {
    assertThat(
            Caution.of(standing("lot:L"), new Treatment.With("dressing 7"), EnglishWords.words()))
        .filteredOn(caution -> caution.about() == About.TREATED_SEED)
        .singleElement()
        .satisfies(
            caution -> assertThat(caution.sentence()).contains("dressing 7", "never food or feed"));
    assertThat(about(standing("lot:L"), new Treatment.Unknown())).contains(About.TREATED_SEED);
  }

  private static List<About> about(LotStanding standing, Treatment treatment) {
    return Caution.of(standing, treatment, EnglishWords.words()).stream()
        .map(Caution::about)
        .toList();
  }

  private static LotStanding standing(String subject, GateVerdict... verdicts) {
    return LotStanding.newBuilder()
        .setSubject(subject)
        .setState(StandingState.FIT)
        .setVerdicts(List.of(verdicts))
        .setInherited(List.of())
        .setHeldKg(0)
        .setGivenOutKg(0)
        .setParents(List.of())
        .build();
  }

  private static GateVerdict ergot(VerdictState state, Double bodies) {
    return GateVerdict.newBuilder()
        .setGate("ERGOT")
        .setAspect("")
        .setState(state)
        .setMeasured(bodies == null ? null : new VerdictValue(bodies, "bodies", 3 - bodies, null))
        .setFactIds(List.of())
        .setSentence("invented")
        .build();
  }
}
