package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** The profile made here against the sRGB of the Java library. */
final class SrgbProfileTest {

    @Test
    void is_a_display_profile_of_three_colours() {
        ICC_Profile profile = ICC_Profile.getInstance(SrgbProfile.bytes());
        assertThat(profile.getNumComponents()).isEqualTo(3);
        assertThat(profile.getProfileClass()).isEqualTo(ICC_Profile.CLASS_DISPLAY);
        assertThat(profile.getColorSpaceType()).isEqualTo(ColorSpace.TYPE_RGB);
    }

    @Test
    void shows_the_colours_that_sRGB_shows() {
        ICC_ColorSpace made = new ICC_ColorSpace(ICC_Profile.getInstance(SrgbProfile.bytes()));
        ColorSpace reference = ColorSpace.getInstance(ColorSpace.CS_sRGB);
        for (float[] colour : new float[][] {{0, 0, 0}, {1, 1, 1}, {0.66f, 0.22f, 0.04f}, {0.5f, 0.5f, 0.5f}}) {
            float[] expected = reference.toCIEXYZ(colour);
            float[] found = made.toCIEXYZ(colour);
            for (int i = 0; i < 3; i++) {
                assertThat(found[i]).isCloseTo(expected[i], Offset.offset(0.005f));
            }
        }
    }
}
