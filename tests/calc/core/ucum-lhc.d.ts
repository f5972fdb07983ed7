// What the tests use of @lhncbc/ucum-lhc, which carries no types.

declare module '@lhncbc/ucum-lhc' {
  export class UcumLhcUtils {
    static getInstance(): UcumLhcUtils;
    validateUnitString(code: string): { status: 'valid' | 'invalid' | 'error' };
    convertUnitTo(
      from: string,
      value: number,
      to: string,
    ): { status: 'succeeded' | 'failed' | 'error'; toVal: number | null };
  }
}
