"""A plan to a build: one module per gap it fills. The last stage that sees the plan; everything after reads the build."""
