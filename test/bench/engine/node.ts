import { assessRates } from './assess'
import { heatRates } from './heat'

const say = (line: string) => process.stdout.write(`${line}\n`)
heatRates(say)
assessRates(say)
