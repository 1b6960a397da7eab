//! sRGB to CIELAB under D65 and back, against independent packages.
//!
//! PyPI `colour-science` 0.4.7, `w = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]`:
//! `colour.XYZ_to_Lab(colour.sRGB_to_XYZ(np.array(rgb) / 255), w)` and
//! `colour.XYZ_to_sRGB(colour.Lab_to_XYZ(np.array(lab), w)) * 255`.
//!
//! PyPI `scikit-image` 0.26.0: `skimage.color.rgb2lab(np.array([[rgb]], dtype=np.uint8))`.
//!
//! The two differ from one another by up to 0.03, since one rounds the white point as IEC 61966-2-1 prints it and the
//! other as ASTM E308 does; so does whoever else reckons with four figures. That is a thirtieth of what an eye sees.

use shirr::trade::colour_difference::{Lab, Shown};

/// Red, green, blue; then L\*, a\*, b\* by `colour-science`, and by `scikit-image`.
const TO_LAB: [([u8; 3], [f64; 3], [f64; 3]); 14] = [
    ([255, 0, 0], [53.2329, 80.1112, 67.2237], [53.2406, 80.0923, 67.2028]),
    ([0, 255, 0], [87.7370, -86.1829, 83.1878], [87.7351, -86.1830, 83.1797]),
    ([0, 0, 255], [32.3026, 79.1981, -107.8504], [32.2957, 79.1856, -107.8573]),
    ([0, 255, 255], [91.1165, -48.0776, -14.1243], [91.1133, -48.0906, -14.1263]),
    ([255, 0, 255], [60.3199, 98.2563, -60.8296], [60.3235, 98.2331, -60.8210]),
    ([255, 255, 0], [97.1382, -21.5536, 94.4895], [97.1395, -21.5547, 94.4781]),
    ([128, 128, 128], [53.5850, 0.0046, 0.0021], [53.5850, -0.0015, 0.0028]),
    ([43, 48, 64], [20.0345, 2.3181, -10.7626], [20.0341, 2.3134, -10.7622]),
    ([31, 74, 55], [28.0197, -20.2303, 6.8859], [28.0189, -20.2332, 6.8851]),
    ([232, 224, 208], [89.4029, 0.0323, 8.8023], [89.4033, 0.0241, 8.8031]),
    ([10, 10, 10], [2.7417, 0.0005, 0.0003], [2.7417, -0.0002, 0.0003]),
    ([200, 90, 40], [51.5475, 40.9800, 48.0932], [51.5517, 40.9713, 48.0887]),
    ([115, 82, 68], [38.0156, 11.8005, 13.6654], [38.0168, 11.7960, 13.6661]),
    ([1, 2, 3], [0.5099, -0.1223, -0.4705], [0.5098, -0.1225, -0.4705]),
];

/// L\*, a\*, b\*; then red, green and blue by `colour-science`, not cut off.
const TO_RGB: [([f64; 3], [f64; 3]); 9] = [
    ([50.0, 0.0, 0.0], [118.9, 118.92, 118.92]),
    ([50.0, 40.0, 20.0], [187.97, 88.38, 87.14]),
    ([70.0, -30.0, 40.0], [139.89, 184.16, 95.73]),
    ([30.0, 20.0, -50.0], [30.9, 64.82, 149.51]),
    ([90.0, 5.0, -5.0], [231.88, 223.64, 235.96]),
    ([20.0, -10.0, 5.0], [35.02, 52.19, 40.76]),
    ([60.0, -45.0, -10.0], [-219.71, 165.17, 160.89]),
    ([50.0, 120.0, -120.0], [184.13, -230.09, 331.97]),
    ([85.0, -90.0, 80.0], [-185.9, 248.09, 9.32]),
];

#[test]
fn srgb_to_lab_agrees_with_two_packages() {
    for (rgb, colour, skimage) in TO_LAB {
        for expected in [colour, skimage] {
            for (found, expected) in Lab::from(rgb).parts().into_iter().zip(expected) {
                assert!((found - expected).abs() <= 0.03, "{rgb:?}: {found} for {expected}");
            }
        }
    }
}

#[test]
fn lab_to_srgb_agrees_and_says_what_it_cuts_off() {
    for ([lightness, a, b], expected) in TO_RGB {
        let Shown { rgb, clipped } = Lab::new(lightness, a, b).shown();
        for (found, expected) in rgb.into_iter().zip(expected) {
            // A half, by rounding, and what the packages differ by.
            assert!((f64::from(found) - expected.clamp(0.0, 255.0)).abs() <= 0.6, "{rgb:?} for {expected:?}");
        }
        assert_eq!(clipped, expected.iter().any(|channel| !(0.0..=255.0).contains(channel)), "{rgb:?}");
    }
}
