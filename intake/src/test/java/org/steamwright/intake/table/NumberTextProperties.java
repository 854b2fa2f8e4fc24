package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Locale;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.steamwright.intake.DecimalMark;

/** Numbers as loggers write them come out as the JDK reads them, bit for bit. */
class NumberTextProperties {

    @Property(tries = 2000)
    void a_number_is_the_nearest_double(
            @ForAll("decimals") BigDecimal number, @ForAll DecimalMark mark, @ForAll boolean isScientific) {
        String plain = isScientific
                ? String.format(Locale.ROOT, "%." + (number.precision() - 1) + "e", number)
                : number.toPlainString();
        String written = plain.replace('.', mark.mark());
        NumberText read = new NumberText();
        assertThat(read.read(written.toCharArray(), 0, written.length(), mark, false))
                .isTrue();
        assertThat(read.end).isEqualTo(written.length());
        assertThat(read.value).isEqualTo(Double.parseDouble(plain));
    }

    @Provide
    Arbitrary<BigDecimal> decimals() {
        return Arbitraries.integers()
                .between(0, 24)
                .flatMap(scale -> Arbitraries.bigDecimals()
                        .between(new BigDecimal("-99999999"), new BigDecimal("99999999"))
                        .ofScale(scale));
    }
}
