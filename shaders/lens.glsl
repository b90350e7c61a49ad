// Where the picture shows the lenses of glasses, and eyes.
// Room position on the lens; w: reflectance, 0 = no lens, negative = a cornea's, which takes nothing
// from what is seen behind it.
uniform sampler2D lens_place;
uniform vec4 lens_box;        // left, bottom, width, height in pixels

ivec2 in_lens_box(ivec2 pixel) { return pixel - ivec2(lens_box.xy); }

vec4 lens_at(ivec2 pixel) {
    ivec2 at = in_lens_box(pixel);
    ivec2 size = ivec2(lens_box.zw);
    if (any(lessThan(at, ivec2(0))) || any(greaterThanEqual(at, size))) {
        return vec4(0.0);
    }
    return texelFetch(lens_place, at, 0);
}

// Clear glass swallows nothing: what is not mirrored goes through.
float seen_through(ivec2 pixel) { return 1.0 - max(lens_at(pixel).w, 0.0); }
