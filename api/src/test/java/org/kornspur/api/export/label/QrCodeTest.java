package org.kornspur.api.export.label;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/** What was drawn is read again: the picture by Java's own reader, the code by ZXing's. */
class QrCodeTest {
  private static final String LINK = "https://seed.example/01/06291041500213/10/L25-7";
  private static final Pattern MODULE = Pattern.compile("M(\\d+) (\\d+)h1v1h-1z");
  private static final int WHITE = 0xFFFFFF;
  private static final int PIXELS = 4;

  @Test
  void thePictureIsReadAgain() throws Exception {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(new QrCode(LINK).png()));
    assertThat(decoded(image)).isEqualTo(LINK);
  }

  @Test
  void theDrawingIsReadAgain() throws Exception {
    String svg = new QrCode(LINK).svg("Lot <L25-7> & more", List.of("WARNING: NOT FIT"));
    assertThat(svg).contains("Lot &lt;L25-7&gt; &amp; more").contains("WARNING: NOT FIT");
    int side = Integer.parseInt(svg.replaceAll("(?s).*?viewBox=\"0 0 (\\d+) .*", "$1"));
    BufferedImage image =
        new BufferedImage(side * PIXELS, side * PIXELS, BufferedImage.TYPE_INT_RGB);
    for (int x = 0; x < image.getWidth(); x++) {
      for (int y = 0; y < image.getHeight(); y++) {
        image.setRGB(x, y, WHITE);
      }
    }
    Matcher module = MODULE.matcher(svg);
    while (module.find()) {
      for (int dx = 0; dx < PIXELS; dx++) {
        for (int dy = 0; dy < PIXELS; dy++) {
          image.setRGB(
              Integer.parseInt(module.group(1)) * PIXELS + dx,
              Integer.parseInt(module.group(2)) * PIXELS + dy,
              0);
        }
      }
    }
    assertThat(decoded(image)).isEqualTo(LINK);
  }

  private static String decoded(BufferedImage image) throws Exception {
    int width = image.getWidth();
    int height = image.getHeight();
    int[] pixels = image.getRGB(0, 0, width, height, null, 0, width);
    return new QRCodeReader()
        .decode(
            new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels))))
        .getText();
  }
}
