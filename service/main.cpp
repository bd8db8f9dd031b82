// Picks a door: so far the command line.
#include "cli/commands.h"

int main(int argc, char** argv) { return passage_brief::run_command_line(argc, argv); }
