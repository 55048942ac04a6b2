package org.kornspur.api.web.bench;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the bench; they stand in {@code messages/bench_*.properties}. */
@MessageBundle("bench")
public interface BenchMessages {

  @Message
  String formOf(BenchForm form);

  @Message
  String progress(BenchSample.Progress progress);

  @Message
  String title();

  @Message
  String heading(String laboratory);

  @Message
  String unbound();

  @Message
  String nothingAssigned();

  @Message
  String accredited();

  @Message
  String ownRecord();

  @Message
  String beforeYouBegin();

  @Message
  String noDeadline();

  @Message
  String open();

  @Message
  String noneOpen();

  @Message
  String finished();

  @Message
  String samplesOnPages(String n);

  @Message
  String lot();

  @Message
  String category();

  @Message
  String drawn();

  @Message
  String assigned();

  @Message
  String waits();

  @Message
  String mass();

  @Message
  String accreditation();

  @Message
  String asked();

  @Message
  String noneAsked();

  @Message
  String treated(String treatment);

  @Message
  String treatedShort(String treatment);

  @Message
  String treatedUnknownShort();

  @Message
  String ergotShort();

  @Message
  String handlingTreated();

  @Message
  String treatedUnknown();

  @Message
  String ergot();

  @Message
  String ergotInSample();

  @Message
  String toSamples();

  @Message
  String toSample(String sample);

  @Message
  String recorded();

  @Message
  String tasks();

  @Message
  String results();

  @Message
  String noResults();

  @Message
  String recordedBy(String person, String document);

  @Message
  String superseded(String reason);

  @Message
  String correction(String reason);

  @Message
  String correct();

  @Message
  String correcting(String form);

  @Message
  String sample(String sample);

  @Message
  String notTaken();

  @Message
  String notCountedHint();

  @Message
  String check();

  @Message
  String checked();

  @Message
  String checkedExplained();

  @Message
  String comesTo();

  @Message
  String entered();

  @Message
  String record();

  @Message
  String change();

  @Message
  String source();

  @Message
  String sectionReason();

  @Message
  String reason();

  @Message
  String reasonHint();

  @Message
  String sectionReplicate(int n);

  @Message
  String normalSeedlings(int n);

  @Message
  String seeds(int n);

  @Message
  String sectionRetest();

  @Message
  String retestOf();

  @Message
  String retestOfHint();

  @Message
  String testOf(String day, String document);

  @Message
  String sectionMasses();

  @Message
  String pureSeedG();

  @Message
  String inertMatterG();

  @Message
  String otherSeedsG();

  @Message
  String sectionCountedSample();

  @Message
  String sampleG();

  @Message
  String sampleNumber();

  @Message
  String sampleNumberHint();

  @Message
  String sectionCounts();

  @Message
  String otherCereals();

  @Message
  String otherPlants();

  @Message
  String raphanusAndAgrostemma();

  @Message
  String wildOats();

  @Message
  String loliumTemulentum();

  @Message
  String ergotBodies();

  @Message
  String sectionMoisture();

  @Message
  String moisturePercent();

  @Message
  String moistureHint();

  @Message
  String sectionRecord();

  @Message
  String happenedAt();

  @Message
  String happenedAtHint();

  @Message
  String sourceDocument();

  @Message
  String sourceDocumentHint();

  @Message
  String unchanged();

  @Message
  String germination();

  @Message
  String germinationIs(String percent, String normal, String seeds);

  @Message
  String range();

  @Message
  String within(String range, String tolerated);

  @Message
  String exceeded(String range, String tolerated);

  @Message
  String beside(String day, String percent);

  @Message
  String agrees(String difference, String tolerated);

  @Message
  String disagrees(String difference, String tolerated);

  @Message
  String sampleLookedThrough();

  @Message
  String pureSeed();

  @Message
  String inertMatter();

  @Message
  String otherSeedsByMass();

  @Message
  String shareOf(String percent, String mass);

  @Message
  String trace();

  @Message
  String notCounted();

  @Message
  String ergotFound(String n);
}
