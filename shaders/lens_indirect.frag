// Adds what the lenses mirror of one light's way by other surfaces.
uniform sampler2D mirrored;
uniform vec4 lens_box;

layout(location = 0) out vec4 radiance;

void main() {
    radiance = vec4(texelFetch(mirrored, ivec2(gl_FragCoord.xy) - ivec2(lens_box.xy), 0).rgb, 1.0);
}
