// A process that only starts: the floor of a whole process.
int main() { return 0; }
