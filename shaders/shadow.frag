// Depth is written by the pipeline.
void main() {}
