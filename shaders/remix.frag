// Sums the lights' layers with their present power and colour. Linear.
const int most_layers = 64;
uniform sampler2DArray layers;
uniform int layer_count;
uniform vec4 layer_weight[most_layers]; // rgb over samples; w: layer

layout(location = 0) out vec4 sum;

void main() {
    ivec2 pixel = ivec2(gl_FragCoord.xy);
    vec3 total = vec3(0.0);
    for (int i = 0; i < layer_count; ++i) {
        vec3 layer = texelFetch(layers, ivec3(pixel, int(layer_weight[i].w)), 0).rgb;
        total += layer_weight[i].rgb * layer;
    }
    sum = vec4(total, 1.0);
}
